const ICONS: Record<string, string> = {
  rectangle: '<path d="M6 8H50V32H6Z"/>',
  strip:
    '<path class="wall" d="M4 9H52"/><path d="M6 9V25H50V9"/><path class="icon-thin" d="M6 7L9 3M14 7L17 3M22 7L25 3M30 7L33 3M38 7L41 3M46 7L49 3"/>',
  curvy: '<path d="M6 24C4 10 18 4 26 10S40 6 48 12S54 32 42 32S28 26 20 31S8 34 6 24Z"/>',
  circle: '<circle cx="28" cy="20" r="15"/>',
  oval: '<ellipse cx="28" cy="20" rx="23" ry="13"/>',
  triangle: '<path d="M6 33L22 6L50 33Z"/>',
  ring: '<circle cx="28" cy="20" r="16"/><circle cx="28" cy="20" r="6"/><circle class="icon-solid" cx="28" cy="20" r="1.5"/>',
  area: '<path class="icon-dashed" d="M12 4H44V36H12Z"/><path class="icon-thin" d="M12 14H44M12 25H44M23 4V36M34 4V36"/>',
  volume:
    '<path d="M4 33C12 32 18 8 28 8S44 32 52 33Z"/><path class="icon-thin" d="M20 26l4 -3M28 19l4 2M30 27l5 -1M26 13l3 1M38 29l4 1M13 30l4 -1"/>',
}

/** A small outline of a bed's shape to pick by. Hidden from screen readers, since the label beside it says the name. */
export function drawShapeIcon(shape: string): string {
  return `<svg class="shape-icon" viewBox="0 0 56 40" width="56" height="40" aria-hidden="true">${ICONS[shape] ?? ''}</svg>`
}
