import { it } from 'vitest'
import { expectMeaning, spellings } from './table.ts'

it.each(
  spellings(`
  about 20               ~20        common
  abt 20                 ~20
  approx 20              ~20        common
  approx. 20 ft          ~20        common
  approximately 20       ~20        common
  around 20              ~20        common
  roughly 20             ~20        common
  ca. 20                 ~20
  c. 20                  ~20
  circa 20               ~20
  maybe 20               ~20        common
  some 20 ft             ~20
  say 20                 ~20        common
  ~20                    ~20        common
  ~ 20                   ~20        common
  ≈ 20                   ~20
  almost 20              ~20        common
  nearly 20 ft           ~20        common
  close to 20            ~20        common
  just over 20           ~20        common
  just under 20          ~20        common
  a little over 20       ~20        common
  a bit less than 20     ~20        common
  20 or so               ~20        common
  20 ft or so            ~20        common
  20ish                  ~20        common
  20-ish                 ~20        common
  20?                    ~20        common
  20 give or take        ~20        common
  20 ft, give or take    ~20        common
  20 more or less        ~20        common
  20 ft approx           ~20        common
  20 roughly             ~20
  about 20 to 25         ~22.5 ± 2.5
  20ish x 5              ~20 x 5
  unos 20 pies           ~20        common
  unas 20                ~20        common
  como 20 pies           ~20        common
  casi 20                ~20        common
  aprox. 20              ~20        common
  aproximadamente 20     ~20        common
  alrededor de 20        ~20        common
  cerca de 20            ~20        common
  más o menos 20         ~20        common
  20 más o menos         ~20        common
  poco más de 20         ~20        common
  poco menos de 20       ~20        common
  up to 20               ! length-unreadable
  at least 20            ! length-unreadable
  20 give or take 2      ! length-unreadable
`),
)('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
