/** A sheet in words: the same facts with real headings and tables. */
import { memo } from 'react';
import type { ReactElement } from 'react';
import type { Page } from '../../sheets/sheet.ts';
import type { TextBlock } from '../../sheets/text-block.ts';

export const SheetInWords = memo(function SheetInWords({ title, pages, id }: { readonly title: string; readonly pages: readonly Page[]; readonly id: string }): ReactElement {
  return (
    <div className="in-words" id={id} tabIndex={-1}>
      <h2>{title}, in words</h2>
      {pages.map((page, index) => <section key={index} aria-label={page.subtitle ?? `page ${index + 1}`}>{page.text.map((block, at) => <Block key={at} block={block} />)}</section>)}
    </div>
  );
});

function Block({ block }: { readonly block: TextBlock }): ReactElement {
  switch (block.kind) {
    case 'heading': return <h3>{block.text}</h3>;
    case 'paragraph': return <p>{block.text}</p>;
    case 'list': return <ul>{block.items.map((item, index) => <li key={index}>{item}</li>)}</ul>;
    case 'table': return (
      <div className="wide-table" role="group" aria-label={block.caption} tabIndex={0}>
        <table className="schedule">
          <caption>{block.caption}</caption>
          <thead><tr>{block.head.map((cell, index) => (cell === '' ? <td key={index} /> : <th key={index} scope="col">{cell}</th>))}</tr></thead>
          <tbody>{block.rows.map((row, index) => <tr key={index}>{row.map((cell, at) => (at === 0 && cell !== '' ? <th key={at} scope="row">{cell}</th> : <td key={at}>{cell}</td>))}</tr>)}</tbody>
        </table>
      </div>
    );
  }
}
