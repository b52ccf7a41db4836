/** What jsdom lacks of a laid-out page: every element is 2000 × 600 px, and nothing ever changes its size. */

class StillObserver implements ResizeObserver {
  observe(): void {}
  unobserve(): void {}
  disconnect(): void {}
}

globalThis.ResizeObserver ??= StillObserver
Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, get: () => 600 })
Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, get: () => 2000 })
