/** Who may come in, and what for. Two ways to be open: to this machine only, without keys; or to the shop's network, with them. */

/** What a key opens. `console` is the sawyer's own machine; the others are devices, with one role each. */
export type DeviceRole = 'wheel' | 'sawyer' | 'signal';
export type KeyRole = 'console' | DeviceRole;

export interface Device {
  readonly id: string;
  readonly role: DeviceRole;
  readonly label: string;
  readonly madeAtMs: number;
}

/** Who holds the key that a request came with. `device` is missing for the console. */
export interface Holder {
  readonly role: KeyRole;
  readonly device?: string;
}

type Admission =
  | { readonly ok: true; readonly holder: Holder }
  | { readonly ok: false; readonly code: 'key-needed' | 'key-wrong' | 'too-many-tries' };

export interface Access {
  /** True where the server is open to the shop's network. */
  readonly lan: boolean;
  /** Certificate and its private key in PEM; null where plain HTTP on loopback will do. */
  readonly tls: { readonly key: string; readonly cert: string } | null;
  /** The console's key, null where no key is needed. */
  readonly consoleKey: string | null;
  /** Names and addresses, in lower case and without brackets, that a request may ask for in its Host. */
  hostNames(): ReadonlySet<string>;
  /** The name under which another machine finds this one; the address of the shop's network where there is one. */
  nameForDevices(): string;
  /** `from` is the remote address: wrong keys are counted by it. */
  admit(key: string | undefined, from: string): Admission;
  devices(): readonly Device[];
  /** Makes a key for a device. It is shown this once: only its hash is kept. */
  addDevice(role: DeviceRole, label: string): Promise<{ readonly device: Device; readonly key: string }>;
  /** False if there is no such device. Connections that it holds are closed by whoever listens to `onRevoked`. */
  revoke(id: string): Promise<boolean>;
  onRevoked(listener: (device: string) => void): void;
}
