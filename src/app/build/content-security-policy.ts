import type { Plugin } from 'vite'

/** Nothing but the page's own files; pictures and clips may also come from memory. */
const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

/**
 * Puts the content security policy into the built page as its first element, so that it holds for all that follows.
 * The development server is left alone: its hot updates need inline scripts and styles.
 */
export function contentSecurityPolicy(): Plugin {
  return {
    name: 'weighbridge:content-security-policy',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: policy },
        injectTo: 'head-prepend',
      },
    ],
  }
}
