// What is worked out of an object once, when it is first asked for, and goes with it: of an index, a fold's list, a plan.
// The owner is never changed after it was made; whoever changes it makes a new one.

/** @param make Asked once for each owner; it must look at nothing else that can change. */
export function derived<O extends object, V>(make: (owner: O) => V): (owner: O) => V {
  const made = new WeakMap<O, { value: V }>();
  return (owner) => {
    let known = made.get(owner);
    if (!known) {
      known = { value: make(owner) };
      made.set(owner, known);
    }
    return known.value;
  };
}
