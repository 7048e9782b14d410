/* A busy machine may take long to load a page of the pane; nothing is waited for so long where one is not. */
if (typeof document !== 'undefined') {
  const { configure } = await import('@testing-library/preact');
  configure({ asyncUtilTimeout: 20_000 });
}

export {};
