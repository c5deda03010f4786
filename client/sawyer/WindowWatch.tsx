import { useEffect, useState } from 'preact/hooks';
import { Note } from '../kit/parts/Note.tsx';

/** A pedal types into the window in front. If that is another one, the foot is not heard, and this must be seen. */
export function WindowWatch() {
  const [isInFront, setInFront] = useState(() => document.hasFocus());
  useEffect(() => {
    const look = (): void => setInFront(document.hasFocus());
    window.addEventListener('focus', look);
    window.addEventListener('blur', look);
    const looking = setInterval(look, 1000);
    return () => {
      window.removeEventListener('focus', look);
      window.removeEventListener('blur', look);
      clearInterval(looking);
    };
  }, []);
  if (isInFront) return null;
  return (
    <div class="window-watch">
      <Note kind="alarm" word="Pedal not heard">
        Another window is in front. Click or touch this page.
      </Note>
    </div>
  );
}
