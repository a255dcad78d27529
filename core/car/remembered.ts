/**
 * What is worked out once for an object and gone with it: the metal of a car, the paths of a network's answers.
 *
 * Kept on the object itself, not in a WeakMap: a WeakMap that lives long keeps what it holds from the collection of young objects,
 * and a thousand draws then fill the memory of the old ones. A copy of the object (`{ ...car }`) remembers nothing of it.
 *
 * @param make  pure; called once for each owner. What follows the owner must be the same whenever it is asked for the same owner.
 */
export function remembered<O extends object, R extends readonly unknown[], V>(make: (owner: O, ...rest: R) => V): (owner: O, ...rest: R) => V {
  const slot = Symbol(make.name);
  return (owner, ...rest) => {
    const known = (owner as { readonly [slot]?: { readonly value: V } })[slot];
    if (known !== undefined) return known.value;
    const value = make(owner, ...rest);
    Object.defineProperty(owner, slot, { value: { value }, enumerable: false });
    return value;
  };
}
