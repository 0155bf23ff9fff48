const ADDRESS = /(?:https?:\/\/|www\.)[^\s<>"')\]]+/gi
/** Of addresses without a scheme, those under the ends that junk mostly has, and the usual ones. */
const BARE =
  /(?<![@\w.-])(?:[a-z0-9-]+\.)+(?:com|net|org|info|biz|ru|cn|xyz|top|shop|online|site|club|live|store|link|vip|io|me)\b(?!@)(?:\/[^\s<>"')\]]*)?/gi
const MARKUP = /<\s*a\s[^>]*href|\[\s*(?:url|link)\s*[=\]]|\]\(\s*https?:/i

/** The links of a text, mail addresses not among them. */
function linksIn(text: string): string[] {
  const rest = text.replace(ADDRESS, ' ')
  return [...(text.match(ADDRESS) ?? []), ...(rest.match(BARE) ?? [])]
}

/** How many links a text has, mail addresses not counted. */
export function countLinks(text: string): number {
  return linksIn(text).length
}

/** The sites that a text links to, each once. */
export function sitesIn(text: string): string[] {
  const sites = linksIn(text).map(
    link =>
      link
        .toLowerCase()
        .replace(/^https?:\/\/|^www\./g, '')
        .split(/[/?#:]/)[0]!,
  )
  return [...new Set(sites)]
}

/** Whether it writes links as only programs for web pages and forums do. */
export function hasLinkMarkup(text: string): boolean {
  return MARKUP.test(text)
}
