// The page around the sheet, for a webview: where its files lie, and a fresh nonce.
import { Uri, type Webview } from 'vscode';
import { page } from './page.ts';

/** The preview's page. Text of tunes never goes in here: it is posted as data. */
export function pageHtml(webview: Webview, extension: Uri): string {
  const script = webview.asWebviewUri(Uri.joinPath(extension, 'dist', 'webview.js'));
  const style = webview.asWebviewUri(Uri.joinPath(extension, 'media', 'sheet.css'));
  return page({ nonce: nonce(), source: webview.cspSource, script: script.toString(), style: style.toString() });
}

function nonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
