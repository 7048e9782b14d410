/** The pane, as a window that it opened sees it. */
export interface Opener {
  say(text: string): void;
}

/**
 * Joins a window opened by `openWindow` to its opener; resolves when both can speak. Rejects outside such a window.
 * @param heard what the opener says
 */
export async function joinOpener(heard: (text: string) => void): Promise<Opener> {
  await Office.onReady();
  const { ui } = Office.context;
  await new Promise<void>((resolve, reject) => {
    ui.addHandlerAsync(
      Office.EventType.DialogParentMessageReceived,
      (event: Office.DialogParentMessageReceivedEventArgs) => heard(event.message),
      (result) => {
        if (String(result.status) === 'succeeded') resolve();
        else reject(new Error(result.error.message));
      },
    );
  });
  return { say: (text) => ui.messageParent(text) };
}
