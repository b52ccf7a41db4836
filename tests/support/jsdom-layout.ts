/** What jsdom lacks of a laid-out page: every element is 600 px high, and nothing ever changes its size. */

class StillObserver implements ResizeObserver {
  observe(): void {}
  unobserve(): void {}
  disconnect(): void {}
}

globalThis.ResizeObserver ??= StillObserver
Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, get: () => 600 })
HTMLElement.prototype.scrollIntoView ??= () => {}
