import type { Page } from 'playwright'

/** Pastes a picture of an upright shape into the page, with the pointer over the front view. */
export async function pastePicture(page: Page): Promise<void> {
  await page.mouse.move(200, 200)
  await page.evaluate(async () => {
    const canvas = document.createElement('canvas')
    canvas.width = 300
    canvas.height = 400
    const target = canvas.getContext('2d') as CanvasRenderingContext2D
    target.fillStyle = '#88aacc'
    target.fillRect(60, 20, 180, 360)
    const blob = await new Promise<Blob>((done) => canvas.toBlob((made) => done(made as Blob)))
    const data = new DataTransfer()
    data.items.add(new File([blob], 'take3.png', { type: 'image/png' }))
    document.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    )
  })
  await page.getByRole('button', { name: 'Scale by two points' }).waitFor()
}
