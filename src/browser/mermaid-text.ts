import { copyText } from './share/copy-text.ts';

/** `<mermaid-text>`: its button copies the text of a graph that its link leads to. Without script the link opens it. */
class MermaidText extends HTMLElement {
  connectedCallback(): void {
    const button = this.querySelector('button');
    button?.removeAttribute('hidden');
    button?.addEventListener('click', () => this.#copy());
  }

  async #copy(): Promise<void> {
    const isCopied = await copyText(fetchText(this.querySelector('a')?.href ?? ''));
    const status = this.querySelector('[role="status"]');
    if (status !== null) status.textContent = isCopied ? 'Copied.' : 'Not copied. Open the link and copy it there.';
  }
}

async function fetchText(address: string): Promise<string> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`Status ${response.status} for ${address}`);
  return response.text();
}

customElements.define('mermaid-text', MermaidText);
