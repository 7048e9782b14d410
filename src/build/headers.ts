/** What a host of the add-in should send with every file: name, value, and what it is for. */
export interface Header {
  readonly name: string;
  readonly value: string;
  readonly why: string;
}

/**
 * Programs that show the pane in a frame of theirs: Excel on the web and where it is built in. From public issues of the
 * client library; Microsoft documents no list, and none was tried in Excel.
 */
const FRAMED_BY = [
  'https://*.officeapps.live.com',
  'https://*.sharepoint.com',
  'https://*.cloud.microsoft',
  'https://*.office.com',
  'https://onedrive.live.com',
];

/** The headers; `framedBy` are further addresses that may show the pane, a workbench's for one. */
export function headers(framedBy: readonly string[] = []): Header[] {
  return [
    {
      name: 'Content-Security-Policy',
      value: `frame-ancestors 'self' ${[...FRAMED_BY, ...framedBy].join(' ')}`,
      why: 'Only spreadsheet programs may show the pane inside a page of theirs. The rest of the policy stands in the pages themselves.',
    },
    {
      name: 'Strict-Transport-Security',
      value: 'max-age=31536000',
      why: 'A browser that was here once asks over https only.',
    },
    {
      name: 'X-Content-Type-Options',
      value: 'nosniff',
      why: 'A file is what its type says, never a script by its looks.',
    },
    {
      name: 'Referrer-Policy',
      value: 'no-referrer',
      why: 'Nobody is told which workbook a request came from.',
    },
    {
      name: 'Cross-Origin-Opener-Policy',
      value: 'unsafe-none',
      why: 'The window of guided capture keeps the way to the pane that opened it.',
    },
    {
      name: 'Cache-Control',
      value: 'no-cache',
      why: 'A new version is taken at once; what did not change is not sent again.',
    },
  ];
}

/** As a page for whoever runs the host: each header with its reason, in the lines most servers take. */
export function headersText(): string {
  const about = '# What a host of this add-in should send with every file, and why.\n';
  return (
    about +
    headers()
      .map(({ name, value, why }) => `\n# ${why}\n${name}: ${value}\n`)
      .join('')
  );
}
