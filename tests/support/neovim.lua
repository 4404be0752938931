-- Opens a tune file, attaches the language server, and prints each finding as code, line and message. TUNES and CLI name the files.
local file, cli = os.getenv('TUNES'), os.getenv('CLI')
vim.cmd('edit ' .. vim.fn.fnameescape(file))
local buffer = vim.api.nvim_get_current_buf()
local client = vim.lsp.start_client({
  name = 'bullfiddle',
  cmd = { os.getenv('NODE'), cli, 'lsp', '--stdio' },
  root_dir = vim.fn.fnamemodify(file, ':h'),
})
vim.lsp.buf_attach_client(buffer, client)
local wanted = os.getenv('CODE')
vim.wait(30000, function()
  for _, found in ipairs(vim.diagnostic.get(buffer)) do
    if found.code == wanted then return true end
  end
  return false
end, 50)
for _, found in ipairs(vim.diagnostic.get(buffer)) do
  io.stdout:write(table.concat({ found.code or '?', found.lnum + 1, found.message }, '\t') .. '\n')
end
