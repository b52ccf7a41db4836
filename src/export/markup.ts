/** Text as it may stand in markup, between tags and in double quotes. */
export const escaped = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: no markup may hold these
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')

/** An element with markup inside. Classes and other attributes only: the page allows no inline style. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string | number>>,
  inside: string,
): string {
  const written = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${escaped(String(value))}"`)
    .join('')
  return `<${name}${written}>${inside}</${name}>`
}
