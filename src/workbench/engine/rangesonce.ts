import type { IDependencyManagerService } from '@univerjs/preset-sheets-core';

/**
 * The engine notes at every change which ranges each formula reads, and works all ranges of a repeated formula out
 * anew for each one it notes: a row's formula of twelve references cost 12 × 12. Here they are worked out once.
 */
export function workRangesOutOnce(dependencies: IDependencyManagerService): void {
  const note = dependencies.addDependencyRTreeCache.bind(dependencies);
  dependencies.addDependencyRTreeCache = (tree) => {
    const { rangeList } = tree;
    note(Object.create(tree, { rangeList: { value: rangeList } }));
  };
}
