import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** A component whose code is fetched when it is first shown, so that the pane's first paint does not wait for it. */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  let loaded: ComponentType<P> | undefined;
  return function Later(props: P) {
    const [Body, setBody] = useState<ComponentType<P> | undefined>(() => loaded);
    useEffect(() => {
      if (Body) return;
      let isShown = true;
      load().then((component) => {
        loaded = component;
        if (isShown) setBody(() => component);
      });
      return () => {
        isShown = false;
      };
    }, [Body]);
    return Body ? <Body {...props} /> : <p aria-busy="true">Loading …</p>;
  };
}
