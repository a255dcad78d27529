/** A piece of a sheet in words. */
export type TextBlock =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'table'; readonly caption: string; readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] };

/** Blocks as plain text for a terminal or a search; tables with tabs between the columns. */
export function plainText(blocks: readonly TextBlock[]): string {
  return blocks.map((block) => {
    switch (block.kind) {
      case 'heading': return `\n${block.text.toUpperCase()}`;
      case 'paragraph': return block.text;
      case 'list': return block.items.map((item) => `- ${item}`).join('\n');
      case 'table': return [block.caption, block.head.join('\t'), ...block.rows.map((row) => row.join('\t'))].join('\n');
    }
  }).join('\n');
}
