const OTHER_LETTERS: Record<string, string> = {
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ς: 'σ',
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  "'": '',
  '’': '',
  '‘': '',
}

/** A text as it is searched for: without accents, capitals and apostrophes. The database's plain_text does the same. */
export function plainText(typed: string): string {
  const bare = typed.normalize('NFKD').replace(/[\u0300-\u036f]/g, '')
  return bare.toLowerCase().replace(/[øłđςßæœ'’‘]/g, letter => OTHER_LETTERS[letter]!)
}
