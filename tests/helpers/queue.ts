import type { Browser } from './people.ts'

/** The list at an address, as headings with their counts, and under each its rows in words. */
export async function listAt(owner: Browser, path: string) {
  const { text } = await owner.get(path).expect(200)
  const sections = text.split('<h2 class="step"').slice(1)
  return sections.map(section => {
    const [, heading, count] =
      /id="[^"]+">([\w’ ]+?)\s*(?:<span class="step-count">([\d+]+)<\/span>)?<\/h2>/.exec(section)!
    const rows = section
      .split('<li class="row">')
      .slice(1)
      .map(row => row.slice(0, row.indexOf('</li>')))
      .map(row =>
        row
          .replace(/<[^>]*>/g, ' ')
          .replace(/\s+/g, ' ')
          .trim(),
      )
    return { heading: heading!, count, rows }
  })
}

/** The section under a heading; none has no rows. */
export function sectionOf(sections: Awaited<ReturnType<typeof listAt>>, heading: string) {
  return sections.find(section => section.heading === heading) ?? { heading, count: undefined, rows: [] }
}
