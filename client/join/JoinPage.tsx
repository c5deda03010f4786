import { useState } from 'preact/hooks';
import { Note } from '../kit/parts/Note.tsx';

/** For whoever comes without a key: how to get one, and a field for it. The server answers with the page that the key opens. */
export function JoinPage() {
  const [key, setKey] = useState('');
  const clean = key.replace(/\s/g, '').toLowerCase();
  const isKey = /^[0-9a-f]{40}$/.test(clean);
  const wasSent = location.pathname !== '/join';
  return (
    <main class="join stack">
      <h1>By the Mark</h1>
      {wasSent && (
        <Note kind="care" word="No key">
          This page opens only with a key that this server knows. If it opened here before, the key was taken back.
        </Note>
      )}
      <section class="stack">
        <h2>With a tablet or phone</h2>
        <ol>
          <li>Be on the shop’s own network.</li>
          <li>On the sawyer’s console, choose what the device is to be. A code appears.</li>
          <li>Scan that code with this device’s camera, and open the address.</li>
          <li>
            The browser warns of the certificate, because the server made it itself. Compare the address with the
            console’s, and go on.
          </li>
        </ol>
      </section>
      <section class="stack">
        <h2>At the console itself</h2>
        <p>Open the address that the server printed after the word “console”.</p>
      </section>
      <form
        class="stack"
        method="get"
        action="/"
        onSubmit={(event) => {
          event.preventDefault();
          if (isKey) location.assign(`/?key=${clean}`);
        }}
      >
        <h2>With a key in hand</h2>
        <label class="stack join-field">
          Key, 40 letters and digits
          <input
            type="text"
            name="key"
            autocomplete="off"
            autocapitalize="off"
            spellcheck={false}
            value={key}
            onInput={(event) => setKey(event.currentTarget.value)}
          />
        </label>
        <p class="soft" aria-live="polite">
          {key === ''
            ? 'Digits and the letters a to f; spaces do not count.'
            : isKey
              ? 'Complete.'
              : `${clean.length} of 40.`}
        </p>
        <button type="submit" class="button-strong" disabled={!isKey}>
          Open
        </button>
      </form>
    </main>
  );
}
