import { readdirSync, readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { SECONDS } from './seconds.ts';

/** What the quick run is without: long files, and those that ask LibreOffice. */
export function notQuick(): string[] {
  const files = readdirSync('test', { recursive: true, encoding: 'utf8' }).map(
    (file) => `test/${file.replaceAll('\\', '/')}`,
  );
  const asksOffice = (file: string) =>
    /\.test\.tsx?$/.test(file) && /from '[./a-z]*\/libreoffice'/.test(readFileSync(file, 'utf8'));
  return files.filter((file) => file in SECONDS || asksOffice(file));
}

/**
 * Long files begin first, so that no worker is left alone with one at the end; a fresh clone knows no times of its own.
 * Those of one project with one environment follow each other: a worker that is to change either is started anew, which
 * takes 5 s.
 */
export default class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const place = new Map(sorted.map((file) => [file, this.#place(file)] as const));
    return sorted.sort((a, b) => {
      const [one, other] = [place.get(a)!, place.get(b)!];
      return one.worker.localeCompare(other.worker) || other.seconds - one.seconds;
    });
  }

  #place({ moduleId, project }: TestSpecification): { readonly worker: string; readonly seconds: number } {
    const [, named] = /^\/\/ @vitest-environment (\w+)/.exec(readFileSync(moduleId, 'utf8')) ?? [];
    return {
      worker: `${project.name} ${named ?? project.config.environment}`,
      seconds: SECONDS[relative(this.ctx.config.root, moduleId).replaceAll('\\', '/')] ?? 0,
    };
  }
}
