import { useState } from 'preact/hooks';
import { api, type Refusal } from '../link/api.ts';
import { Note } from './Note.tsx';

/** Takes out all that is kept of a person, once they have said so twice. */
export function ForgetHand({ name, onForgotten }: { readonly name: string; readonly onForgotten: () => void }) {
  const [isAsking, setAsking] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  async function forget(): Promise<void> {
    const asked = await api.forgetHand(name);
    setAsking(false);
    if (asked.ok) onForgotten();
    else setRefusal(asked);
  }

  if (refusal !== null) return <Note kind="alarm">{refusal.error.message}</Note>;
  if (!isAsking)
    return (
      <button type="button" onClick={() => setAsking(true)}>
        Forget {name}
      </button>
    );
  return (
    <div class="row" role="alertdialog" aria-label={`Forget ${name}`}>
      <span>Forget everything that is kept of {name}? The runs stay.</span>
      <button type="button" onClick={() => void forget()}>
        Yes, forget
      </button>
      <button type="button" onClick={() => setAsking(false)}>
        No
      </button>
    </div>
  );
}
