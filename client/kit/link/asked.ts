/** The run that this page's address names. */
export const runAsked = (): string | null => new URLSearchParams(location.search).get('run');
