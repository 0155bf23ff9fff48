import { asTick, countOf } from './looked-at.ts'
import { asOneText } from './start/start-figure.ts'
import type { FigureGroup } from './start/start-figures.ts'

const A_FEW = 3

/** The figures that nobody has looked at, as the page of the rates lists them. */
export interface NotLookedAt {
  heading: string
  folded: boolean
  groups: {
    title: string
    figures: {
      id: string
      tick: string
      label: string
      words: string
      source: string
      path: string
    }[]
  }[]
}

export function viewNotLookedAt(groups: FigureGroup[]): NotLookedAt {
  const count = countOf(groups)
  return {
    heading: count === 1 ? 'One figure to check' : `${count} figures to check`,
    folded: count > A_FEW,
    groups: groups.map(({ title, figures }) => ({
      title,
      figures: figures.map(figure => ({
        id: `right-${figure.key.replaceAll('.', '-')}`,
        tick: asTick({ key: figure.key, figure: asOneText(figure.now) }),
        label: figure.label,
        words: figure.words,
        source: figure.source.words,
        path: `/rates/draft/${figure.section}`,
      })),
    })),
  }
}
