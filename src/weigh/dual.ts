import type { ContactSystem } from './system'

const OFF = 0
const STICKS = 1
const SLIDES = 2

/**
 * The dual of the split as a function of its six unknowns y:
 * φ(y) = Σ ½ k |P(Gᵀy)|² + ½ ε |y − anchor|² − w · y,
 * where Gᵀy = y_force + y_moment × r at a vertex at r, P projects on its friction cone, and f = k P(Gᵀy)
 * is its force. φ is convex and once differentiable; its gradient Σ G f + ε (y − anchor) − w is what the
 * contacts leave over of the needed wrench.
 */
export class SplitDual {
  readonly anchor = new Float64Array(6)
  readonly gradient = new Float64Array(6)
  /** Second derivative, row by row; only the lower triangle is kept. */
  readonly hessian = new Float64Array(36)
  private system!: ContactSystem
  private epsilon = 1
  /** Whether each vertex is off, sticks or slides. */
  private state = new Uint8Array(48)
  /** For each vertex that slides: |P| sideways over |Gᵀy| sideways, and the unit vector sideways along u, v. */
  private slide = new Float64Array(144)

  begin(system: ContactSystem): void {
    this.system = system
    this.anchor.fill(0)
    if (this.state.length >= system.vertices) return
    this.state = new Uint8Array(2 * system.vertices)
    this.slide = new Float64Array(6 * system.vertices)
  }

  /** Sets the forces of the system, and the gradient, to those at y. */
  evaluate(y: Float64Array, epsilon: number): void {
    const { gradient: g, anchor } = this
    const { wrench, contacts } = this.system
    this.epsilon = epsilon
    for (let i = 0; i < 6; i++) {
      g[i] = epsilon * ((y[i] as number) - (anchor[i] as number)) - (wrench[i] as number)
    }
    for (let c = 0; c < contacts; c++) this.evaluateContact(c, y)
  }

  /** In the contact's own frame, where Gᵀy and r × f are plain cross products along n, u, v. */
  private evaluateContact(c: number, y: Float64Array): void {
    const { axes, friction, stiffness, first, local, force } = this.system
    const { state, slide, gradient: g } = this
    const at = 9 * c
    const nx = axes[at] as number
    const ny = axes[at + 1] as number
    const nz = axes[at + 2] as number
    const ux = axes[at + 3] as number
    const uy = axes[at + 4] as number
    const uz = axes[at + 5] as number
    const vx = axes[at + 6] as number
    const vy = axes[at + 7] as number
    const vz = axes[at + 8] as number
    const y0 = y[0] as number
    const y1 = y[1] as number
    const y2 = y[2] as number
    const y3 = y[3] as number
    const y4 = y[4] as number
    const y5 = y[5] as number
    const yn = y0 * nx + y1 * ny + y2 * nz
    const yu = y0 * ux + y1 * uy + y2 * uz
    const yv = y0 * vx + y1 * vy + y2 * vz
    const mn = y3 * nx + y4 * ny + y5 * nz
    const mu = y3 * ux + y4 * uy + y5 * uz
    const mv = y3 * vx + y4 * vy + y5 * vz
    const grip = friction[c] as number
    const k = stiffness[c] as number
    // Sums of forces and moments over the patch.
    let sn = 0
    let su = 0
    let sv = 0
    let tn = 0
    let tu = 0
    let tv = 0
    const end = first[c + 1] as number
    for (let j = first[c] as number; j < end; j++) {
      const rn = local[3 * j] as number
      const ru = local[3 * j + 1] as number
      const rv = local[3 * j + 2] as number
      const zn = yn + mu * rv - mv * ru
      const zu = yu + mv * rn - mn * rv
      const zv = yv + mn * ru - mu * rn
      const zt = Math.sqrt(zu * zu + zv * zv)
      let fn = 0
      let fu = 0
      let fv = 0
      if (zt <= grip * zn) {
        state[j] = STICKS
        fn = k * zn
        fu = k * zu
        fv = k * zv
      } else if (zn + grip * zt > 0) {
        state[j] = SLIDES
        const along = (zn + grip * zt) / (1 + grip * grip)
        const bend = (grip * along) / zt
        slide[3 * j] = bend
        slide[3 * j + 1] = zu / zt
        slide[3 * j + 2] = zv / zt
        fn = k * along
        fu = k * bend * zu
        fv = k * bend * zv
      } else state[j] = OFF
      force[3 * j] = fn
      force[3 * j + 1] = fu
      force[3 * j + 2] = fv
      sn += fn
      su += fu
      sv += fv
      tn += ru * fv - rv * fu
      tu += rv * fn - rn * fv
      tv += rn * fu - ru * fn
    }
    g[0] = (g[0] as number) + sn * nx + su * ux + sv * vx
    g[1] = (g[1] as number) + sn * ny + su * uy + sv * vy
    g[2] = (g[2] as number) + sn * nz + su * uz + sv * vz
    g[3] = (g[3] as number) + tn * nx + tu * ux + tv * vx
    g[4] = (g[4] as number) + tn * ny + tu * uy + tv * vy
    g[5] = (g[5] as number) + tn * nz + tu * uz + tv * vz
  }

  /**
   * Sets the hessian to the one at the last evaluated y: Σ k G J Gᵀ + ε I. J, the derivative of P, is the
   * identity where a vertex sticks; where it slides it is d dᵀ / (1 + μ²) + bend · t tᵀ, with d = n + μ e along
   * the cone's edge, t = n × e square to it; 0 where it is off.
   */
  curve(): void {
    const { contacts, first, friction, stiffness } = this.system
    const { state, slide, hessian: h } = this
    h.fill(0)
    for (let i = 0; i < 6; i++) h[7 * i] = this.epsilon
    for (let c = 0; c < contacts; c++) {
      const grip = friction[c] as number
      const k = stiffness[c] as number
      const end = first[c + 1] as number
      for (let j = first[c] as number; j < end; j++) {
        if (state[j] === STICKS) this.addSticking(j, k)
        else if (state[j] === SLIDES) {
          const eu = slide[3 * j + 1] as number
          const ev = slide[3 * j + 2] as number
          this.addOuter(c, j, 1, grip * eu, grip * ev, k / (1 + grip * grip))
          if (grip > 0) this.addOuter(c, j, 0, -ev, eu, k * (slide[3 * j] as number))
        }
      }
    }
  }

  /** hessian += k G Gᵀ, with G = [1; r ×] */
  private addSticking(j: number, k: number): void {
    const { place } = this.system
    const h = this.hessian
    const x = place[3 * j] as number
    const y = place[3 * j + 1] as number
    const z = place[3 * j + 2] as number
    h[0] = (h[0] as number) + k
    h[7] = (h[7] as number) + k
    h[14] = (h[14] as number) + k
    h[19] = (h[19] as number) - k * z
    h[20] = (h[20] as number) + k * y
    h[21] = (h[21] as number) + k * (y * y + z * z)
    h[24] = (h[24] as number) + k * z
    h[26] = (h[26] as number) - k * x
    h[27] = (h[27] as number) - k * x * y
    h[28] = (h[28] as number) + k * (x * x + z * z)
    h[30] = (h[30] as number) - k * y
    h[31] = (h[31] as number) + k * x
    h[33] = (h[33] as number) - k * x * z
    h[34] = (h[34] as number) - k * y * z
    h[35] = (h[35] as number) + k * (x * x + y * y)
  }

  /** hessian += s · d dᵀ for the wrench d of the force (an, au, av) along n, u, v at vertex j of contact c. */
  private addOuter(c: number, j: number, an: number, au: number, av: number, s: number): void {
    const { axes, place } = this.system
    const h = this.hessian
    const at = 9 * c
    const d0 = an * (axes[at] as number) + au * (axes[at + 3] as number) + av * (axes[at + 6] as number)
    const d1 = an * (axes[at + 1] as number) + au * (axes[at + 4] as number) + av * (axes[at + 7] as number)
    const d2 = an * (axes[at + 2] as number) + au * (axes[at + 5] as number) + av * (axes[at + 8] as number)
    const x = place[3 * j] as number
    const y = place[3 * j + 1] as number
    const z = place[3 * j + 2] as number
    const d3 = y * d2 - z * d1
    const d4 = z * d0 - x * d2
    const d5 = x * d1 - y * d0
    h[0] = (h[0] as number) + s * d0 * d0
    h[6] = (h[6] as number) + s * d1 * d0
    h[7] = (h[7] as number) + s * d1 * d1
    h[12] = (h[12] as number) + s * d2 * d0
    h[13] = (h[13] as number) + s * d2 * d1
    h[14] = (h[14] as number) + s * d2 * d2
    h[18] = (h[18] as number) + s * d3 * d0
    h[19] = (h[19] as number) + s * d3 * d1
    h[20] = (h[20] as number) + s * d3 * d2
    h[21] = (h[21] as number) + s * d3 * d3
    h[24] = (h[24] as number) + s * d4 * d0
    h[25] = (h[25] as number) + s * d4 * d1
    h[26] = (h[26] as number) + s * d4 * d2
    h[27] = (h[27] as number) + s * d4 * d3
    h[28] = (h[28] as number) + s * d4 * d4
    h[30] = (h[30] as number) + s * d5 * d0
    h[31] = (h[31] as number) + s * d5 * d1
    h[32] = (h[32] as number) + s * d5 * d2
    h[33] = (h[33] as number) + s * d5 * d3
    h[34] = (h[34] as number) + s * d5 * d4
    h[35] = (h[35] as number) + s * d5 * d5
  }
}
