// The text of the page around the sheet: nothing is allowed but our own script, by a nonce, and our own style.

/** The page's text, apart from where its files lie; its policy is pinned by a test. */
export function page(parts: { readonly nonce: string; readonly source: string; readonly script: string; readonly style: string }): string {
  const policy = `default-src 'none'; style-src ${parts.source}; font-src ${parts.source}; script-src 'nonce-${parts.nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${parts.style}">
<title>Sheet</title>
</head>
<body>
<main id="sheet"></main>
<script nonce="${parts.nonce}" src="${parts.script}"></script>
</body>
</html>`;
}
