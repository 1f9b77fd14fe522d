/*
 * The only texts that a page hands to its browser to load as script or to read as markup. The policy of the pages
 * (src/build/policy.ts) refuses every other one in browsers that know Trusted Types: W3C Trusted Types, 4.
 */

/** What a policy makes stands where a string would. */
interface Rules {
  readonly createScriptURL: (address: string) => string;
  readonly createHTML: (text: string) => string;
}

const rules: Rules = {
  /** A script that our own build wrote: the offline worker, or one whose name holds its hash. Vite’s server has other names. */
  createScriptURL: (address) => {
    const { origin, pathname } = new URL(address, location.href);
    if (origin !== location.origin || !(import.meta.env.DEV || /\/(?:sw|_astro\/[\w.-]+)\.js$/.test(pathname))) {
      throw new TypeError(`Not a script of this site: ${address.slice(0, 200)}`);
    }
    return address;
  },
  /** A drawing of `core/figure/sheet.ts`: every text in it is escaped, so each `<` begins a shape, a group, a text or a link. */
  createHTML: (svg) => {
    if (/<(?!\/?(?:svg|defs|pattern|g|a|path|rect|circle|text|tspan)[ />])/.test(svg)) {
      throw new TypeError('Not a drawing.');
    }
    return svg;
  },
};

const { trustedTypes } = globalThis as {
  readonly trustedTypes?: { readonly createPolicy: (name: string, rules: Rules) => Rules };
};
const policy = trustedTypes?.createPolicy('halfsplit', rules) ?? rules;

/** The address of a script of this site, for a worker. Throws where it is another. */
export function trustScript(address: string): string {
  return policy.createScriptURL(address);
}

/**
 * A drawing that our own code wrote. It is read as XML, in which a slip of escaping is an error and not an element, and
 * must hold nothing but shapes, groups, text and links within the site; else undefined.
 */
export function parseDrawing(svg: string): Element | undefined {
  try {
    const drawing = new DOMParser().parseFromString(policy.createHTML(svg), 'image/svg+xml').documentElement;
    return [drawing, ...drawing.querySelectorAll('*')].every(isPlain) ? drawing : undefined;
  } catch {
    return undefined;
  }
}

function isPlain(element: Element): boolean {
  const isKnown = element.namespaceURI === 'http://www.w3.org/2000/svg' && element.localName !== 'parsererror';
  return (
    isKnown &&
    [...element.attributes].every(({ name, value }) =>
      name.includes('href') ? /^\/(?!\/)/.test(value) : !name.startsWith('on') && name !== 'style',
    )
  );
}
