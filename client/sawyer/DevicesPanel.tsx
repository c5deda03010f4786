import { useEffect, useState } from 'preact/hooks';
import { api, type MadeDevice, type Refusal } from '../kit/link/api.ts';
import { Note } from '../kit/parts/Note.tsx';

const ROLES = [
  ['wheel', 'Wheel display'],
  ['sawyer', 'Second sawyer page'],
] as const;

/** A code for a tablet or phone to scan; it opens one role and no other. */
export function DevicesPanel({ run }: { readonly run: string }) {
  const [access, setAccess] = useState<{ readonly lan: boolean; readonly role: string } | null>(null);
  const [made, setMade] = useState<MadeDevice | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  useEffect(() => {
    void api.access().then((asked) => (asked.ok ? setAccess(asked.value) : setRefusal(asked)));
  }, []);

  async function add(role: 'wheel' | 'sawyer', label: string): Promise<void> {
    const asked = await api.addDevice({ role, label, run });
    if (asked.ok) setMade(asked.value);
    setRefusal(asked.ok ? null : asked);
  }

  return (
    <section class="panel">
      <h2>Tablets and phones</h2>
      {access?.lan === false && (
        <p>
          The server is open to this machine only. To let a tablet in, stop it and start it with{' '}
          <code>npm start -- --lan</code>, then open the console address that it prints.
        </p>
      )}
      {access?.lan === true && access.role !== 'console' && <p>Devices are added on the sawyer’s console.</p>}
      {access?.lan === true && access.role === 'console' && (
        <div class="row">
          {ROLES.map(([role, label]) => (
            <button key={role} type="button" onClick={() => void add(role, label)}>
              {label}
            </button>
          ))}
        </div>
      )}
      {refusal !== null && <Note kind="alarm">{refusal.error.message}</Note>}
      {made !== null && (
        <figure class="qr">
          <img alt={`Code for ${made.label}`} src={`data:image/svg+xml,${encodeURIComponent(made.qr)}`} />
          <figcaption>
            <strong>{made.label}.</strong> Scan with the device on the shop’s network. It will warn of the certificate,
            which this server made itself: go on. Shown this once.
          </figcaption>
        </figure>
      )}
    </section>
  );
}
