/**
 * Small things remembered from one time to the next: the meter, the place, whether the cautions were read.
 * Nothing that belongs to a measurement: that stands in the workbook.
 */
export interface Preferences {
  get(key: string): Promise<unknown>;
  set(key: string, value: unknown): Promise<void>;
}

/** What is used of the helper library's storage: its other members do not do what they say (1.0.2). */
interface Container {
  get(key: string): unknown;
  set(key: string, value: unknown): unknown;
}

/** Preferences that last as long as the pane. */
export function memoryPreferences(): Preferences {
  const kept = new Map<string, unknown>();
  return {
    get: async (key) => kept.get(key),
    set: async (key, value) => {
      kept.set(key, value);
    },
  };
}

/**
 * Preferences kept by the browser. The helper library is loaded when first needed, after the first paint.
 * @param partitionKey the host's key for this document's site, part of the name so that sites stay apart
 */
export function createPreferences(partitionKey: string | undefined, load = loadContainer): Preferences {
  const memory = memoryPreferences();
  let opened: Promise<Container | undefined> | undefined;
  const container = () => {
    // A browser may forbid storage; preferences are a comfort, so they then last as long as the pane.
    opened ??= load(`${partitionKey ?? ''}LightOutputWorkbook`).catch(() => undefined);
    return opened;
  };
  return {
    get: async (key) => (await container())?.get(key) ?? memory.get(key),
    set: async (key, value) => {
      const kept = await container();
      try {
        if (!kept) await memory.set(key, value);
        else kept.set(key, value);
      } catch {
        // The browser's store is full or was closed meanwhile.
        await memory.set(key, value);
      }
    },
  };
}

/** The library is CommonJS: bundlers show its members by name, Node under `default`. */
async function loadContainer(name: string): Promise<Container> {
  const library = await import('@microsoft/office-js-helpers');
  const { Storage } = 'Storage' in library ? library : (library as { default: typeof library }).default;
  return new Storage<unknown>(name);
}
