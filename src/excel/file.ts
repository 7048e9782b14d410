import { HostError, type HostTrouble } from './host';

/** The most that Office hands over at a time (reference of `Document.getFileAsync`). */
const SLICE = 4_194_304;
/** Characters handed to `String.fromCharCode` at once; more overflow the stack of some browsers. */
const CHUNK = 0x8000;

/** The workbook as the program would save it now. */
export async function fileBytes(): Promise<Uint8Array> {
  if (!Office.context.requirements.isSetSupported('CompressedFile', '1.1')) {
    throw new HostError(
      'unavailable',
      'This program does not hand the workbook over as a file.',
      'Save the workbook and use the command line: light plain IN.xlsx OUT.xlsx.',
    );
  }
  const file = await asked<Office.File>((done) =>
    // Its value, since the enumeration is not there in every program.
    Office.context.document.getFileAsync(
      'compressed' as unknown as Office.FileType,
      { sliceSize: SLICE },
      done,
    ),
  );
  try {
    const bytes = new Uint8Array(file.size);
    let filled = 0;
    for (let at = 0; at < file.sliceCount; at++) {
      const slice = await asked<Office.Slice>((done) => file.getSliceAsync(at, done));
      const data = Uint8Array.from(slice.data as ArrayLike<number>);
      bytes.set(data, filled);
      filled += data.length;
    }
    return bytes.subarray(0, filled);
  } finally {
    // No more than two may be open at a time.
    file.closeAsync();
  }
}

/** Opens an .xlsx file as a new workbook beside this one. */
export async function openBytes(bytes: Uint8Array): Promise<void> {
  await Excel.createWorkbook(base64(bytes));
}

function asked<T>(ask: (done: (result: Office.AsyncResult<T>) => void) => void): Promise<T> {
  return new Promise((resolve, reject) => {
    ask(({ status, value, error }) => {
      if (String(status) === 'succeeded') resolve(value);
      else {
        reject(notHandedOver(error));
      }
    });
  });
}

interface Words {
  readonly trouble: HostTrouble;
  readonly message: string;
  readonly remedy: string;
}
const BY_HAND = 'Or save the workbook and use the command line: light plain IN.xlsx OUT.xlsx.';
const NOT_GIVEN: Words = {
  trouble: 'refused',
  message: 'The program did not hand the workbook over.',
  remedy: `Save the workbook once and try again. ${BY_HAND}`,
};

/** Numbers of the client library (`OSF.DDA.ErrorCodeManager.errorCodes` of office.js). */
const WORDS: Readonly<Record<number, Words>> = {
  1000: {
    trouble: 'unavailable',
    message: 'This program does not hand the workbook over as an .xlsx file.',
    remedy: BY_HAND,
  },
  5001: {
    trouble: 'refused',
    message: 'The program failed while it handed the workbook over.',
    remedy: `Press Enter or Escape in the sheet, save the workbook once and try again. ${BY_HAND}`,
  },
  5008: {
    trouble: 'refused',
    message: 'The workbook changed while it was handed over.',
    remedy: 'Try again when nobody is typing.',
  },
  5102: {
    trouble: 'busy',
    message: 'The program has too much to do just now to hand the workbook over.',
    remedy: 'Wait a moment and try again.',
  },
  5104: {
    trouble: 'refused',
    message: 'The workbook is too large for this program to hand over.',
    remedy: BY_HAND,
  },
  7000: {
    trouble: 'refused',
    message: 'The add-in is not permitted to read this workbook.',
    remedy: 'Is it protected against copying, or open for reading only? Save it under another name first.',
  },
};

/** What became of a file that was asked for, in words; the library's own number is for a report. */
function notHandedOver(error: { readonly code?: number; readonly message?: string } | undefined): HostError {
  const { trouble, message, remedy } = WORDS[error?.code ?? 0] ?? NOT_GIVEN;
  return new HostError(trouble, message, remedy, `${error?.code} ${error?.message}`);
}

function base64(bytes: Uint8Array): string {
  let binary = '';
  for (let at = 0; at < bytes.length; at += CHUNK) {
    binary += String.fromCharCode(...bytes.subarray(at, at + CHUNK));
  }
  return btoa(binary);
}
