/** Text made safe for XML content and for attributes in double quotes. */
export function escapeXml(text: string): string {
  return text.replace(/[&<>"']/g, character => `&#${character.charCodeAt(0)};`)
}

/** A number as SVG wants it: at most two decimals, never an exponent. */
export function num(value: number): string {
  return String(Math.round(value * 100) / 100 || 0)
}

/**
 * How wide a text may become at most, in the unit of `size`. Counted generously, by the widest of the usual system
 * fonts, since the fonts of the one who reads are not known.
 */
export function textWidth(text: string, size: number): number {
  let ems = 0
  for (const character of text)
    ems += /[ .,:;'’|il]/.test(character) ? 0.36 : /[MW%@×]/.test(character) ? 1 : 0.66
  return ems * size
}

/** A whole drawing with its title, which is all that a screen reader says of it. */
export function svg(options: {
  id: string
  title: string
  width: number
  height: number
  classes: string
  body: string
}): string {
  const { id, width, height } = options
  return (
    `<svg class="${options.classes}" viewBox="0 0 ${num(width)} ${num(height)}" width="${num(width)}" height="${num(height)}" ` +
    `role="img" aria-labelledby="${id}-title"><title id="${id}-title">${escapeXml(options.title)}</title>${options.body}</svg>`
  )
}
