import { KEY_LIST } from '../keys';
import look from './capture.module.css';
import own from './Keys.module.css';

/** The keys, all of them near the number pad or on it. */
export function Keys() {
  return (
    <>
      <dl class={own.keys} aria-label="Keys in the number entry">
        {KEY_LIST.map(([key, words]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      <p class={look.quiet}>Letters work while nothing has been typed.</p>
    </>
  );
}
