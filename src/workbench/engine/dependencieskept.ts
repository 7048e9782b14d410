import type {
  IDependencyManagerService,
  IFormulaCurrentConfigService,
  IFormulaData,
  IFormulaDependencyGenerator,
} from '@univerjs/preset-sheets-core';
import type { FormulasKept } from './formulaskept';

/** A formula with the ranges that it reads. */
interface Tree {
  /** 0 for a formula in a cell; others belong to rules and features. */
  readonly type: number;
  /** A copy of another formula, which has the ranges. */
  readonly isVirtual: boolean;
  isDirty: boolean;
  rangeList: unknown[];
  /** Calls whose ranges only their values tell, as OFFSET. */
  readonly addressFunctionNodes: readonly unknown[];
  resetState(): void;
}

/** The engine's own members that build its tree; they have no public names. */
interface Inside {
  _dependencyTreeCache: Map<number, Tree>;
  _generateTreeList(formulas: IFormulaData, others: object, units: object): Promise<readonly Tree[]>;
  _calculateListByFunctionRefNode(trees: readonly Tree[]): Promise<void>;
  _detectForcedRecalculationNode(tree: Tree, node: unknown): boolean;
  _includeTree(tree: Tree, node: unknown): boolean;
}
const MEMBERS = [
  '_generateTreeList',
  '_calculateListByFunctionRefNode',
  '_detectForcedRecalculationNode',
  '_includeTree',
] as const;

/** The engine empties its map of trees after each use; this one stays. */
class Lasting extends Map<number, Tree> {
  override clear(): void {}
}
interface Kept {
  readonly formulas: IFormulaData;
  readonly byId: Lasting;
  readonly trees: readonly Tree[];
  /** The engine empties these too. */
  readonly ranges: ReadonlyMap<Tree, readonly unknown[]>;
}

/**
 * Keeps the tree of dependencies from one change to the next while every formula is as it was. The engine reads all
 * formulas, works out all their ranges and sorts them in at every change, twice where a table spills: seconds for
 * thousands of rows. Where a name or a sheet changed, a function is volatile, or ranges depend on values, it still does.
 */
export function keepDependencies(
  generator: IFormulaDependencyGenerator,
  dependencies: IDependencyManagerService,
  config: IFormulaCurrentConfigService,
  known: FormulasKept,
): void {
  const inside = generator as unknown as Inside;
  const missing = MEMBERS.find((name) => typeof inside[name] !== 'function');
  if (missing) throw new Error(`The spreadsheet engine has no "${missing}": dependencies cannot be kept.`);
  let kept: Kept | undefined;
  /** What depends on more than formulas, found while they are read. */
  let isVolatile = false;

  const isForced = inside._detectForcedRecalculationNode.bind(generator);
  inside._detectForcedRecalculationNode = (tree, node) => {
    const forced = isForced(tree, node);
    isVolatile ||= forced;
    return forced;
  };
  const follow = inside._calculateListByFunctionRefNode.bind(generator);
  inside._calculateListByFunctionRefNode = async (trees) => {
    if (!trees.some(({ addressFunctionNodes }) => addressFunctionNodes.length > 0)) return;
    isVolatile = true;
    await follow(trees);
  };

  const build = inside._generateTreeList.bind(generator);
  inside._generateTreeList = async (formulas, others, units) => {
    if (kept?.formulas === formulas && known.isCurrent(formulas) && isOfCellsOnly(config)) {
      inside._dependencyTreeCache = kept.byId;
      for (const tree of kept.trees) {
        tree.resetState();
        const ranges = kept.ranges.get(tree);
        if (ranges) tree.rangeList = [...ranges];
        tree.isDirty = inside._includeTree(tree, undefined);
      }
      return kept.trees;
    }
    kept = undefined;
    isVolatile = false;
    // Otherwise the ranges of every formula would be sorted in once more each time.
    dependencies.reset();
    inside._dependencyTreeCache = new Map();
    const trees = await build(formulas, others, units);
    if (isVolatile || trees.some(({ type }) => type !== 0)) return trees;
    kept = {
      formulas,
      byId: new Lasting(inside._dependencyTreeCache),
      trees,
      ranges: new Map(trees.filter((tree) => !tree.isVirtual).map((tree) => [tree, [...tree.rangeList]])),
    };
    return trees;
  };
  keepIndex(dependencies, () => kept?.byId);
}

/** Whether a calculation is asked for because of cells alone. */
function isOfCellsOnly(config: IFormulaCurrentConfigService): boolean {
  const asked = config.getDirtyData();
  const others = [
    asked.dirtyNameMap,
    asked.dirtyDefinedNameMap,
    asked.dirtySuperTableMap,
    asked.dirtyUnitFeatureMap,
    asked.dirtyUnitOtherFormulaMap,
    asked.clearDependencyTreeCache,
  ];
  // Each is by workbook; a workbook in which nothing changed may be listed.
  const isEmpty = (map: object | undefined) =>
    Object.values(map ?? {}).every((one: object | null) => Object.keys(one ?? {}).length === 0);
  return !asked.forceCalculation && others.every(isEmpty);
}

/** The index of single cells lasts as long as the tree that it was made for. */
function keepIndex(dependencies: IDependencyManagerService, treeNow: () => object | undefined): void {
  const [open, close] = [
    dependencies.openKdTree.bind(dependencies),
    dependencies.closeKdTree.bind(dependencies),
  ];
  let openedFor: object | undefined;
  dependencies.openKdTree = () => {
    if (openedFor && openedFor === treeNow()) return;
    open();
    openedFor = treeNow();
  };
  dependencies.closeKdTree = () => {
    if (openedFor && openedFor === treeNow()) return;
    close();
    openedFor = undefined;
  };
}
