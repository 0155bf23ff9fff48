import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
// WCAG 2.2 AA asks for this one too, which axe leaves off unless it is asked for.
const RULES = { 'target-size': { enabled: true } }

/** What axe says against the page as it stands, one line for each place; the page must allow scripts. */
export async function axeFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe)
  const options = JSON.stringify({ resultTypes: ['violations'], rules: RULES })
  return page.evaluate(`axe.run(document, ${options}).then(({ violations }) =>
    violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => 'axe ' + id + ' at ' + target.join(' '))))`)
}

/** By how much the page is wider than its window, as a fault; none when it fits. */
export async function sidewaysFaults(page: Page): Promise<string[]> {
  const over = Number(await page.evaluate('document.documentElement.scrollWidth - window.innerWidth'))
  return over > 0 ? [`it is ${over} px wider than the window`] : []
}
