import type { ComponentChildren } from 'preact';

/** The line at the top of every page but the wheel's, which has no room for it. */
export function Head({ children }: { readonly children?: ComponentChildren }) {
  return (
    <header class="head">
      <a class="head-name" href="/">
        <svg class="shape" viewBox="0 0 32 32" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="2.4">
          <path d="M3 21 L29 13 L29 25 L3 25 Z" stroke-linejoin="round" />
          <path d="M16 4 V28" stroke-width="2.8" />
        </svg>
        By the Mark
      </a>
      <nav>{children}</nav>
    </header>
  );
}
