import { useEffect, useState } from 'preact/hooks';
import { Action } from '../components/Action';
import { FileField, type FileFieldProps } from '../components/FileField';
import look from '../components/look.module.css';
import { Arrival } from '../saving/Arrival';
import type { Store } from '../store';
import own from './KeyFold.module.css';
import { keysOf } from './keys';
import traced from './trace.module.css';

/** Signing with a key of one's own, and whose signature is expected. */
export function KeyFold({ store }: { readonly store: Store }) {
  const keys = keysOf(store);
  const [backup, setBackup] = useState(false);
  const [isForgetting, setForgetting] = useState(false);
  useEffect(() => {
    void keys.start();
  }, [keys]);
  const mine = keys.mine.value;
  const expected = keys.expected.value;
  const isOff = store.troubles.busy.value !== '';
  return (
    <details class={own.keys}>
      <summary tabIndex={0}>
        Signing{mine !== undefined && keys.isSigning.value ? ': seals are signed with your key' : ''}
      </summary>
      <div>
        <p class={look.quiet}>
          A signature shows that a seal was made by whoever holds the key. Give your public key, or its
          thumbprint, to those who verify by another way than this workbook: whose key it is cannot be seen
          from the signature. The workbook holds the public key and the signature, never the private key.
        </p>
        <h3>Your key</h3>
        {mine === undefined ? (
          <>
            <p>No key is held in this browser.</p>
            {keys.dropped.value !== undefined && (
              <p class={look.notice}>
                A key was held here since {keys.dropped.value}, and this browser has dropped it with the rest
                of its storage. Take it from its file again, or make a new one and tell those who verify. What
                the old one has signed stays valid.
              </p>
            )}
            <label class={look.tick} for="key-backup">
              <input
                id="key-backup"
                type="checkbox"
                checked={backup}
                onChange={(event) => setBackup(event.currentTarget.checked)}
              />
              Also save it as a file, for another computer or the command line
            </label>
            <Action isOff={isOff} onAct={() => void keys.make(backup)}>
              Make a key
            </Action>
            <KeyChoice
              id="key-private"
              label="Or take a private key from a file"
              onChoose={(file) => void keys.take(file)}
            />
          </>
        ) : (
          <>
            <p>
              Thumbprint <code class={traced.thumbprint}>{mine}</code>
            </p>
            {!keys.isLasting.value && (
              <p class={look.quiet}>This browser keeps nothing: the key goes when the pane is closed.</p>
            )}
            <label class={look.tick} for="key-sign">
              <input
                id="key-sign"
                type="checkbox"
                checked={keys.isSigning.value}
                onChange={(event) => keys.sign(event.currentTarget.checked)}
              />
              Sign new seals with it
            </label>
            <div class={look.answers}>
              <Action isOff={isOff} onAct={keys.savePublic}>
                Save the public key
              </Action>
              {isForgetting ? (
                <>
                  <Action
                    isOff={isOff}
                    onAct={() => {
                      setForgetting(false);
                      void keys.forget();
                    }}
                  >
                    Forget it for good
                  </Action>
                  <Action onAct={() => setForgetting(false)}>Keep it</Action>
                </>
              ) : (
                <Action isOff={isOff} onAct={() => setForgetting(true)}>
                  Forget the key …
                </Action>
              )}
            </div>
            <Arrival
              saving={keys.privateFile}
              caution="Answer before you close the pane: afterwards the key cannot be read out again. Whoever has the file or its text can sign as you."
            />
            <Arrival saving={keys.publicFile} />
            {isForgetting && (
              <p>Without a file of it the key cannot be had again. What it has signed stays valid.</p>
            )}
          </>
        )}
        <h3>Whose signature is expected</h3>
        <p>
          {expected === undefined ? (
            'Nobody’s in particular: a seal may be signed by any key, or not at all.'
          ) : (
            <>
              {expected === mine ? 'Yours: ' : 'That of the key '}
              <code class={traced.thumbprint}>{expected}</code>. A seal without it is refused.
            </>
          )}
        </p>
        <div class={look.answers}>
          {mine !== undefined && expected !== mine && (
            <Action isOff={isOff} onAct={() => void keys.expectMine()}>
              Expect mine
            </Action>
          )}
          {expected !== undefined && <Action onAct={keys.expectAny}>Expect nobody’s</Action>}
        </div>
        <KeyChoice
          id="key-public"
          label="Expect that of a public key file"
          onChoose={(file) => void keys.expectFile(file)}
        />
        <div role="status">
          {keys.said.value && <p class={look.done}>{keys.said.value}</p>}
          {keys.error.value && <p class={look.error}>{keys.error.value}</p>}
        </div>
      </div>
    </details>
  );
}

function KeyChoice(props: Omit<FileFieldProps, 'accept'>) {
  return <FileField {...props} accept=".jwk,.json,application/jwk+json,application/json" />;
}
