import { LINK_ENDS } from './link-ends.ts'

const ADDRESS = /(?:https?:\/\/|www\.)[^\s<>"')\]]+/gi
/** Of addresses without a scheme, those under the ends that junk mostly has, and the usual ones; of 'me', which is a word, two well-known sites. */
const USUAL_END =
  /(?:^(?:t|wa)\.me|\.(?:com|net|org|info|biz|ru|cn|xyz|top|shop|online|site|club|live|store|link|vip|io|eu|uk|app|icu|cyou|com?\.[a-z]{2}))$/i
/** What an address without a scheme may be: labels with dots between them, and maybe a path. */
const BARE = /(?<![@\p{L}\p{N}_.-])((?:[\p{L}\p{N}-]+\.)+\p{L}{2,})(?![\p{L}\p{N}_@-])(\/[^\s<>"')\]]+)?/gu
/** 'the gate sticks.Me and my wife': a sentence that begins without a blank. */
const SENTENCE = /\.(?!(?:Com|Net|Org)$)\p{Lu}\p{Ll}+$/u
/** '3.cu/bed' */
const FIGURE = /^[\d.-]+\.\p{L}+$/u
const MARKUP = /<\s*a\s[^>]*href|\[\s*(?:url|link)\s*[=\]]|\]\(\s*https?:/i

/** The links of a text, mail addresses not among them. */
function linksIn(text: string): string[] {
  const rest = text.replace(ADDRESS, ' ')
  const bare = [...rest.matchAll(BARE)].filter(([, host, path]) => isSite(host!, path !== undefined))
  return [...(text.match(ADDRESS) ?? []), ...bare.map(([link]) => link)]
}

function isSite(host: string, hasPath: boolean): boolean {
  if (SENTENCE.test(host)) return false
  if (USUAL_END.test(host)) return true
  const end = host.slice(host.lastIndexOf('.') + 1).toLowerCase()
  return hasPath && LINK_ENDS.has(end) && !FIGURE.test(host)
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
