/**
 * Makes something that is kept beside the desk, and so outlives the component that asks for it first: what it
 * derives belongs to no component, and stays true when that one goes.
 */
export function outliving<T>(make: () => T): T {
  let made: { readonly thing: T } | null = null
  $effect.root(() => {
    made = { thing: make() }
  })
  return (made as unknown as { readonly thing: T }).thing
}
