import { TEST_FIELDS } from '../../src/fields/field';
import { sizeText } from '../../src/fields/size';
import { Checks } from './Checks';
import look from './fields.module.css';
import { toggleFullScreen } from './fullscreen';
import { Keys } from './Help';
import { Levels } from './Levels';
import { SaveForm } from './SaveForm';
import type { FieldsStore } from './store';

/** Before a field is shown: what to heed, how the window stands, which fields there are, files for a stick. */
export function Start({ store }: { readonly store: FieldsStore }) {
  const surface = store.surface.value;
  const begin = () => {
    // First: what the browser then refuses is to be read over the field.
    store.show('grid');
    if (!document.fullscreenElement) void toggleFullScreen(store);
  };
  return (
    <div class={look.start}>
      <h1>Test fields</h1>
      <p>
        Put this window on the projector’s screen and make it full screen. The computer has to send the
        projector’s native resolution, and the projector has to show it unscaled: zoom, keystone and edge
        corrections off.
      </p>
      <section aria-labelledby="heed">
        <h2 id="heed">Heed</h2>
        <ul>
          <li>Never look into the lens, and keep your face out of the beam.</li>
          <li>
            In a dark room a full white picture dazzles: look away when it comes up, and tell whoever else is
            in the room.
          </li>
          <li>Before you walk in the dark, know where cables and steps are.</li>
          <li>The maker’s manual, the site’s rules and local law come first.</li>
        </ul>
      </section>
      <section aria-labelledby="check">
        <h2 id="check">Window</h2>
        {surface && (
          <p>
            {sizeText(surface.drawn)} pixels drawn; compare with the projector’s native resolution. Device
            pixel ratio {Number(surface.dpr.toFixed(3))}.
          </p>
        )}
        <Checks store={store} />
        <button type="button" class={look.main} onClick={begin}>
          Full screen, and begin
        </button>
      </section>
      <section aria-labelledby="all">
        <h2 id="all">Fields</h2>
        <ul class={look.fields}>
          {TEST_FIELDS.map(({ id, key, title, about }) => (
            <li key={id}>
              <button type="button" onClick={() => store.show(id)}>
                {title}
              </button>
              <kbd>{key.toUpperCase()}</kbd>
              <span>{about}</span>
            </li>
          ))}
        </ul>
        <p>While a field is shown:</p>
        <Keys />
      </section>
      <Levels />
      <SaveForm screen={surface?.drawn} />
    </div>
  );
}
