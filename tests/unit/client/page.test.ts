// The policy of the preview's page, pinned.
import { describe, expect, it } from 'vitest';
import { page } from '../../../client/src/preview/page.ts';

const html = page({
  nonce: 'abc123',
  source: 'https://files.example',
  script: 'https://files.example/a.js',
  style: 'https://files.example/a.css',
});

describe("the page's policy", () => {
  it('allows nothing but our own script, style and fonts', () => {
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1];
    expect(policy).toBe("default-src 'none'; style-src https://files.example; font-src https://files.example; script-src 'nonce-abc123'");
  });
  it('stands before anything that could load', () =>
    expect(html.indexOf('Content-Security-Policy')).toBeLessThan(html.search(/<link|<script/)));
  it('has one script, with the nonce and nothing inside', () => {
    expect(html.match(/<script/g)).toHaveLength(1);
    expect(html).toContain('<script nonce="abc123" src="https://files.example/a.js"></script>');
    expect(html).not.toMatch(/<style|style=|\son\w+=|javascript:/);
  });
});
