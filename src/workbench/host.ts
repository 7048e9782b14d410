import type { FUniver } from '@univerjs/core/facade';
import type { Book } from '../sheets/book';
import { Bridge, type NativeBridge } from './bridge/bridge';
import { Engine } from './engine/engine';
import type { EngineEvent } from './engine/events';
import type { Implementation } from './engine/functions';
import type { FunctionsJson } from './engine/metadata';

/** The embedded host: a workbook, and Excel's side of the client library's bridge to it. */
export interface Workbench {
  readonly engine: Engine;
  /** For `OfficeExtension.HostBridge.init(workbench.bridge)`. */
  readonly bridge: NativeBridge;
  /** One message of the client → the answer to it. */
  bridgeMessage(text: string): Promise<string | undefined>;
  /** Resolves when the functions can be used in formulas. */
  registerFunctions(
    metadata: FunctionsJson,
    implementations: ReadonlyMap<string, Implementation>,
    namespace?: string,
  ): Promise<void>;
  onStateChanged(listener: (event: EngineEvent) => void): () => void;
}

/** Puts Excel's rules and protocol on top of an engine that has a workbook open (`empty.ts` has one). */
export function createWorkbench(api: FUniver): Workbench {
  const engine = new Engine(api);
  const bridge = new Bridge(engine);
  return {
    engine,
    bridge: bridge.native,
    bridgeMessage: (text) => bridge.message(text),
    async registerFunctions(metadata, implementations, namespace = 'LIGHT') {
      engine.functions.register(metadata, implementations, namespace);
      await engine.calculation.settled();
    },
    onStateChanged: (listener) => engine.events.listen(listener),
  };
}
export type { Book };
