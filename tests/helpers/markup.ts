import { closeSync, openSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { type ConfigLoader, HtmlValidate, StaticConfigLoader } from 'html-validate'
import type { Response, SuperAgentRequest } from 'superagent'
import { kindOf, type Skeleton, SoundParts, skeletonOf } from './kind-of-page.ts'

/** Works out its rules once: for every page anew, as it does by itself, takes longer than checking a page. */
class OneConfig extends StaticConfigLoader {
  #kept: ReturnType<ConfigLoader['getConfigFor']> | undefined

  override getConfigFor(handle: string): ReturnType<ConfigLoader['getConfigFor']> {
    this.#kept ??= super.getConfigFor(handle)
    return this.#kept
  }
}

const validator = new HtmlValidate(
  new OneConfig({
    extends: ['html-validate:recommended'],
    rules: {
      // Telephone numbers are kept on one line by the class that every number has.
      'tel-non-breaking': ['error', { ignoreClasses: ['number'] }],
    },
  }),
)

/** What html-validate says against a page, one line for each complaint; none when it is sound. */
export async function markupFaults(page: string): Promise<string[]> {
  const { results } = await validator.validateString(page)
  return results.flatMap(({ source, messages }) =>
    messages.map(
      ({ ruleId, message, line }) => `${ruleId}: ${message} in ${source?.split('\n')[line - 1]?.trim()}`,
    ),
  )
}

// What the pages of this worker were made of, for each run that it knows.
const soundParts = new Map<string, SoundParts>()

/**
 * Gathers the pages that the browsers of a test see, to be checked in the end: one of each kind, by whichever test of
 * the run claims that kind first, unless the worker has found sound all that it is made of. `claims` is the folder where
 * the tests of a run leave word of that.
 */
export function seenPages(claims: string) {
  const pages = new Map<string, { page: string; skeleton: Skeleton; where: string }>()
  const sound = soundParts.get(claims) ?? new SoundParts()
  soundParts.set(claims, sound)
  const keep = (page: string, where: string): void => {
    const skeleton = skeletonOf(page)
    const kind = kindOf(skeleton)
    if (!pages.has(kind)) pages.set(kind, { page, skeleton, where })
  }
  return {
    keep,
    see: (request: SuperAgentRequest): void => {
      request.on('response', ({ type, text }: Response) => {
        if (type === 'text/html' && text) keep(text, `${request.method} ${new URL(request.url).pathname}`)
      })
    },
    requireSound: async (): Promise<void> => {
      for (const [kind, { page, skeleton, where }] of pages) {
        const claim = join(claims, kind)
        if (!sound.isNew(skeleton) || !claimed(claim)) continue
        const faults = await markupFaults(page)
        if (faults.length === 0) {
          sound.add(skeleton)
          continue
        }
        // A fault found once must be found again, by the next test and by the next run of a watching one.
        rmSync(claim)
        throw new Error(`The page of ${where} is no sound HTML:\n${faults.join('\n')}`)
      }
    },
  }
}

function claimed(file: string): boolean {
  try {
    closeSync(openSync(file, 'wx'))
    return true
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw error
  }
}
