import Bowser from 'bowser'

const LONGEST = 400

/** A browser as people call it: 'Firefox' on 'Android'. */
export interface BrowserName {
  browser: string | null
  system: string | null
}

/** The name of the browser that sent a user agent, of which nothing else is kept; null as far as it doesn't tell. */
export function browserName(userAgent: string | undefined): BrowserName {
  const told = (userAgent ?? '').slice(0, LONGEST).trim()
  if (told === '') return { browser: null, system: null }
  const { browser, os } = Bowser.parse(told)
  return { browser: nameIn(browser.name), system: nameIn(os.name) }
}

// Of one it doesn't know, Bowser gives a word of the user agent itself: that may say anything.
function nameIn(name: string | undefined): string | null {
  const known: string[] = [...Object.values(Bowser.BROWSER_MAP), ...Object.values(Bowser.OS_MAP)]
  return name && known.includes(name) ? name : null
}
