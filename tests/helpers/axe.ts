import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
// WCAG 2.2 AA asks for this one too, which axe leaves off unless it is asked for.
const RULES = { 'target-size': { enabled: true } }

/** Of all rules those that say something else where a page is laid out another way. */
export const OF_LAYOUT = ['target-size', 'scrollable-region-focusable', 'meta-viewport']

/**
 * What axe says against the page as it stands, one line for each place: by all its rules, or only by those named. The
 * page must allow scripts.
 */
export async function axeFaults(page: Page, rules?: string[]): Promise<string[]> {
  if (!(await page.evaluate('"axe" in window'))) await page.evaluate(axe)
  const chosen = rules ? { runOnly: rules } : { rules: RULES }
  const options = JSON.stringify({ resultTypes: ['violations'], ...chosen })
  return page.evaluate(`axe.run(document, ${options}).then(({ violations }) =>
    violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => 'axe ' + id + ' at ' + target.join(' '))))`)
}

/** By how much the page is wider than its window, as a fault; none when it fits. */
export async function sidewaysFaults(page: Page): Promise<string[]> {
  const over = Number(await page.evaluate('document.documentElement.scrollWidth - window.innerWidth'))
  return over > 0 ? [`it is ${over} px wider than the window`] : []
}
