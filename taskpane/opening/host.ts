import type { Course, Host } from '../../src/excel/host';
import type { Plan } from '../../src/sheets/plan';

/**
 * The host, under which a workbook opens the pane by itself from its first sheet of ours on, unless somebody has
 * switched that off. A workbook that is only looked at is not changed.
 */
export function openingHost(host: Host): Host {
  const build = async (plan: Plan, course?: Course) => {
    const built = await host.build(plan, course);
    // Not waited for, and no reason for a build to fail: it is a comfort.
    void arrange(host).catch((reason) =>
      console.warn('The workbook will not open the pane by itself', reason),
    );
    return built;
  };
  return new Proxy(host, {
    get: (target, key: keyof Host) => {
      if (key === 'build') return build;
      const member: unknown = target[key];
      return typeof member === 'function' ? member.bind(target) : member;
    },
  });
}

async function arrange(host: Host): Promise<void> {
  if ((await host.opensPane()) === undefined) await host.setOpensPane(true);
}
