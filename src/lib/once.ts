/** Works something out of an object once, and keeps it as long as the object lives: for what never changes. */
export function once<Of extends object, Value>(work: (of: Of) => Value): (of: Of) => Value {
  const known = new WeakMap<Of, Value>()
  return of => {
    if (!known.has(of)) known.set(of, work(of))
    return known.get(of)!
  }
}

/** Works something out when it is first asked for. */
export function lazily<Value>(work: () => Value): () => Value {
  let known: { value: Value } | undefined
  return () => {
    known ??= { value: work() }
    return known.value
  }
}
