import { privateKeyOf, publicKeyOf } from '../../audit/seal/keyfile';
import { type PublicKey, type Signer, thumbprint } from '../../audit/seal/sign';
import { EXIT, type Exit, Failure } from '../failure';
import { freeToWrite, readJson, writeOut } from '../files';
import type { CommandLine } from '../options';
import { say } from '../output';

const CURVE = { name: 'ECDSA', namedCurve: 'P-256' } as const;
/** Makes a key pair and writes it as JSON Web Keys; the private one readable for its owner only. */
export async function key({ files, force }: CommandLine): Promise<Exit> {
  const [name, ...others] = files;
  if (name === undefined || others.length > 0)
    throw new Failure('light key needs one name.', 'For example: light key mine');
  const [own, given] = [`${name}.private.jwk`, `${name}.public.jwk`];
  for (const file of [own, given]) await freeToWrite(file, force);
  const pair = await crypto.subtle.generateKey(CURVE, true, ['sign', 'verify']);
  const [secret, open] = await Promise.all([
    crypto.subtle.exportKey('jwk', pair.privateKey),
    crypto.subtle.exportKey('jwk', pair.publicKey),
  ]);
  await writeOut(own, `${JSON.stringify(secret)}\n`, force, 0o600);
  await writeOut(given, `${JSON.stringify(open)}\n`, force);
  say(`${own}: keep it to yourself. ${given}: give it to those who verify.`);
  say(`Thumbprint ${await thumbprint(crypto.subtle, open as PublicKey)}`);
  return EXIT.holds;
}

/** The signer of a private key file. @throws Failure */
export async function readSigner(path: string): Promise<Signer<CryptoKey>> {
  const jwk = privateKeyOf(await readJson(path));
  if (!jwk) throw new Failure(`${path} is not a private key for ECDSA P-256 (a JSON Web Key).`);
  const privateKey = await crypto.subtle
    .importKey('jwk', { ...jwk }, CURVE, false, ['sign'])
    .catch((cause: unknown) => {
      throw new Failure(`${path} holds no valid key.`, '', { cause });
    });
  return { privateKey, publicKey: { x: jwk.x, y: jwk.y } };
}

/** The public key of a file, be it a public or a private one. @throws Failure */
export async function readPublicKey(path: string): Promise<PublicKey> {
  const key = publicKeyOf(await readJson(path));
  if (!key) throw new Failure(`${path} is not a public key for ECDSA P-256 (a JSON Web Key).`);
  return key;
}
