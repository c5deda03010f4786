import { useState } from 'preact/hooks';
import { Note } from '../kit/parts/Note.tsx';
import { voicesHere } from './askServer.ts';

/** Takes a voice away for good; asks once. */
export function ForgetVoice({ name, onForgotten }: { readonly name: string; readonly onForgotten: () => void }) {
  const [isAsking, setAsking] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);

  async function forget(): Promise<void> {
    const told = await voicesHere.forget(name);
    if (told.ok || told.status === 404) onForgotten();
    else setTrouble(told.error.message);
  }

  if (trouble !== null) return <Note kind="alarm">{trouble}</Note>;
  if (!isAsking)
    return (
      <button type="button" onClick={() => setAsking(true)}>
        Forget {name}
      </button>
    );
  return (
    <>
      <span>This deletes all recordings of {name}. Runs made with them will be silent.</span>
      <button type="button" class="button-strong" onClick={() => void forget()}>
        Yes, forget
      </button>
      <button type="button" onClick={() => setAsking(false)}>
        Keep
      </button>
    </>
  );
}
