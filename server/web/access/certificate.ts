/** The server's own certificate, made on first use and again when it no longer fits. */
import { createPrivateKey, X509Certificate } from 'node:crypto';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { generate } from 'selfsigned';
import { keepPrivately, readKept } from './keepPrivately.ts';

const DAY_MS = 24 * 60 * 60 * 1000;
/** The longest that browsers accept from a public authority; nothing is gained by more. */
const LIFE_DAYS = 397;
/** Renewed this long before its end, so that it does not run out in the middle of a week's work. */
const RENEW_DAYS = 30;

interface KeptCertificate {
  readonly key: string;
  readonly cert: string;
}

/**
 * The certificate in `folder`, made anew if it is missing, damaged, about to end, or does not name one of `names`
 * (host names and IP addresses). Files: `certificate.pem` and `certificate-key.pem`, readable by their owner only.
 */
export async function keptCertificate(
  folder: string,
  names: readonly string[],
  nowMs: number,
): Promise<KeptCertificate> {
  const certPath = join(folder, 'certificate.pem');
  const keyPath = join(folder, 'certificate-key.pem');
  const [cert, key] = await Promise.all([readKept(certPath), readKept(keyPath)]);
  if (cert !== undefined && key !== undefined && stillFits({ cert, key }, names, nowMs)) return { cert, key };

  const made = await generate([{ name: 'commonName', value: 'By the Mark' }], {
    keyType: 'ec',
    curve: 'P-256',
    algorithm: 'sha256',
    // A tablet's clock may be a little behind.
    notBeforeDate: new Date(nowMs - DAY_MS),
    notAfterDate: new Date(nowMs + LIFE_DAYS * DAY_MS),
    extensions: [
      { name: 'basicConstraints', cA: false, critical: true },
      { name: 'keyUsage', digitalSignature: true, critical: true },
      { name: 'extKeyUsage', serverAuth: true },
      {
        name: 'subjectAltName',
        altNames: names.map((name) => (isIP(name) === 0 ? { type: 2, value: name } : { type: 7, ip: name })),
      },
    ],
  });
  await keepPrivately(keyPath, made.private);
  await keepPrivately(certPath, made.cert);
  return { cert: made.cert, key: made.private };
}

function stillFits({ cert, key }: KeptCertificate, names: readonly string[], nowMs: number): boolean {
  try {
    const certificate = new X509Certificate(cert);
    return (
      certificate.checkPrivateKey(createPrivateKey(key)) &&
      Date.parse(certificate.validFrom) <= nowMs &&
      Date.parse(certificate.validTo) - nowMs > RENEW_DAYS * DAY_MS &&
      names.every((name) =>
        isIP(name) === 0 ? certificate.checkHost(name) !== undefined : certificate.checkIP(name) !== undefined,
      )
    );
  } catch {
    // A damaged file is as good as none.
    return false;
  }
}
