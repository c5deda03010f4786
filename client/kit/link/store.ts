import { useEffect, useState } from 'preact/hooks';

/** A value that pages watch. `change` merges; nobody is told when nothing changed. */
export interface Store<T extends object> {
  get(): T;
  change(patch: Partial<T>): void;
  watch(watcher: (value: T) => void): () => void;
}

export function makeStore<T extends object>(initial: T): Store<T> {
  let value = initial;
  const watchers = new Set<(value: T) => void>();
  return {
    get: () => value,
    change(patch) {
      const keys = Object.keys(patch) as (keyof T)[];
      if (keys.every((key) => Object.is(value[key], patch[key]))) return;
      value = { ...value, ...patch };
      for (const watcher of watchers) watcher(value);
    },
    watch(watcher) {
      watchers.add(watcher);
      return () => watchers.delete(watcher);
    },
  };
}

/** What `select` picks from the store; the component is drawn again only when that changes. */
export function useStore<T extends object, S>(store: Store<T>, select: (value: T) => S): S {
  const [picked, setPicked] = useState(() => select(store.get()));
  useEffect(() => {
    setPicked(() => select(store.get()));
    return store.watch((value) => setPicked(() => select(value)));
  }, [store]);
  return picked;
}
