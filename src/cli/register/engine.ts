import { Failure } from '../failure';
import { COLUMNS } from './lines';

/** An answer of the engine: its columns, and its rows as texts, numbers, truths and nothing. */
export interface Answer {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number | boolean | null)[])[];
}

/** The SQL engine over a register: a table called `register`, with the columns of its lines. */
export interface Engine {
  ask(sql: string): Promise<Answer>;
  toParquet(path: string): Promise<void>;
  close(): void;
}

const TEXT = (text: string) => `'${text.replaceAll("'", "''")}'`;
const TYPES = `{${Object.entries(COLUMNS)
  .map(([column, type]) => `${TEXT(column)}: ${TEXT(type)}`)
  .join(', ')}}`;

/**
 * Opens the engine over lines in a JSON file. It reads this one file and, once the table is there, no other, and it
 * keeps within a share of the memory.
 *
 * @throws Failure where the engine is not installed
 */
export async function openEngine(jsonl: string): Promise<Engine> {
  const { DuckDBInstance } = await import('@duckdb/node-api').catch((cause: unknown) => {
    throw new Failure(
      'The SQL engine is not installed: it has no build for this machine, or was left out.',
      'Write the register as .csv or .jsonl, which needs none.',
      { cause },
    );
  });
  const instance = await DuckDBInstance.create(':memory:', { memory_limit: '512MB', threads: '2' });
  const connection = await instance.connect();
  await connection.run(
    `CREATE VIEW register AS SELECT * FROM read_json(${TEXT(jsonl)}, format = 'newline_delimited', columns = ${TYPES})`,
  );
  return {
    ask: async (sql) => {
      const reader = await connection.runAndReadAll(sql).catch((cause: unknown) => {
        throw new Failure(`The question could not be answered: ${(cause as Error).message}`, '', { cause });
      });
      return { columns: reader.columnNames(), rows: reader.getRowsJson() as Answer['rows'] };
    },
    toParquet: async (path) => {
      const copy = `COPY register TO ${TEXT(path)} (FORMAT parquet, COMPRESSION zstd)`;
      await connection.run(copy).catch((cause: unknown) => {
        throw new Failure(`The register could not be written: ${(cause as Error).message}`, '', { cause });
      });
    },
    close: () => {
      connection.closeSync();
      instance.closeSync();
    },
  };
}
