// Says once that somebody reads this page: programs that scan mail open links too, so not before a hand moved.
const SIGNS = ['pointerdown', 'touchstart', 'keydown', 'wheel']

function tell(): void {
  for (const sign of SIGNS) removeEventListener(sign, tell)
  void fetch(`${location.pathname}/seen`, { method: 'POST', keepalive: true }).catch(() => {})
}

for (const sign of SIGNS) addEventListener(sign, tell, { passive: true })
