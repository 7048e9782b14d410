import type { KeptSurvey } from './knownsheets';

/** Changes arrive in bursts; the pane looks once, this many milliseconds after the first. */
const QUIET_MS = 20;

/** Handlers that were added to a program's events, and the timer of what they wait for. */
export interface Following {
  readonly handlers: readonly OfficeExtension.EventHandlerResult<unknown>[];
  end(): void;
}

/**
 * Follows what happens in the workbook. `changed` hears the names of the sheets that changed or were calculated, or
 * nothing where it may be any of them.
 */
export async function follow(
  context: Excel.RequestContext,
  survey: KeptSurvey,
  changed: (sheets?: readonly string[]) => void,
): Promise<Following> {
  const { worksheets } = context.workbook;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let touched = new Set<string>();
  let isAny = false;
  const soon = () => {
    timer ??= setTimeout(() => {
      timer = undefined;
      const names = [...touched].map((id) => survey.nameOf(id));
      const isKnown = !isAny && names.every((name) => name !== undefined);
      touched = new Set();
      isAny = false;
      changed(isKnown ? (names as string[]) : undefined);
    }, QUIET_MS);
  };
  const cells = async ({ worksheetId }: { worksheetId: string }) => {
    touched.add(worksheetId);
    soon();
  };
  const front = async () => {
    survey.hasOtherFront = true;
    soon();
  };
  const sheets = async () => {
    survey.forget();
    isAny = true;
    soon();
  };
  const handlers: OfficeExtension.EventHandlerResult<unknown>[] = [
    worksheets.onChanged.add(cells),
    worksheets.onCalculated.add(cells),
    worksheets.onActivated.add(front),
    worksheets.onAdded.add(sheets),
    worksheets.onDeleted.add(sheets),
    // Older programs tell of another name when the sheet is in front, and of another order with it.
    ...(Office.context.requirements.isSetSupported('ExcelApi', '1.17')
      ? [worksheets.onNameChanged.add(sheets), worksheets.onMoved.add(sheets)]
      : []),
  ];
  await context.sync();
  survey.isFollowed = true;
  return {
    handlers,
    end: () => {
      survey.isFollowed = false;
      clearTimeout(timer);
    },
  };
}
