-- Neovim with the settings that README.md gives: what a maker sees and presses.
-- Run by `nvim --headless -u NONE -S neovim.lua` with HOUSE, CASEWRIGHT, and JOBS (a folder).

local house, jobs = vim.env.HOUSE, vim.env.JOBS

local function read(path)
  local file = assert(io.open(path))
  local text = file:read("*a")
  file:close()
  return text
end

local function write(path, text)
  local file = assert(io.open(path, "w"))
  file:write(text)
  file:close()
end

-- What newer versions have by themselves.
vim.g.do_filetype_lua = 1
if not vim.lsp.start then
  local running = {}
  vim.lsp.start = function(config)
    running[config.name] = running[config.name] or vim.lsp.start_client(config)
    vim.lsp.buf_attach_client(0, running[config.name])
  end
end

-- The settings as they stand in the README, with the command that is tried.
local settings = read(house .. "/README.md"):match("```lua\n(.-)```")
assert(settings, "README.md has no settings for Neovim")
settings = settings:gsub('"casewright", "language%-server"', function()
  return ("%q, %q"):format(vim.env.CASEWRIGHT, "language-server")
end)
assert(settings:find(vim.env.CASEWRIGHT, 1, true), "the settings name another command")
assert(loadstring(settings))()
vim.cmd("filetype plugin on")

local first = read(house .. "/specs/first.case")

local function swapped(text, old, new)
  local start, finish = text:find(old, 1, true)
  assert(start, "no " .. old)
  return text:sub(1, start - 1) .. new .. text:sub(finish + 1)
end

local function until_(what, condition)
  assert(vim.wait(20000, condition, 5), "waited in vain: " .. what)
end

local number = 0

-- Opens a text of its own, as a maker does.
local function open(text)
  number = number + 1
  local path = ("%s/piece-%d.case"):format(jobs, number)
  write(path, text)
  vim.cmd("edit " .. path)
  until_("the server is there", function()
    local all = vim.lsp.buf_get_clients(0)
    return next(all) ~= nil and vim.lsp.buf_is_attached(0, next(all))
  end)
  -- An answer comes after everything before it.
  local _ = vim.lsp.buf_request_sync(
    0, "textDocument/foldingRange", { textDocument = vim.lsp.util.make_text_document_params() }, 20000
  )
end

local function text()
  return table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), "\n") .. "\n"
end

-- Puts the cursor on the letter behind the bar.
local function go(wanted)
  local before, after = wanted:match("^(.-)|(.*)$")
  local start = text():find(before .. after, 1, true)
  assert(start, "no " .. wanted)
  local head = text():sub(1, start - 1 + #before)
  local _, line = head:gsub("\n", "")
  local column = #head:match("[^\n]*$")
  vim.api.nvim_win_set_cursor(0, { line + 1, column })
end

local function findings()
  return vim.diagnostic.get(0)
end

-- What stands in the window that floats, once there is one.
local function floating()
  local found
  until_("a window that floats", function()
    for _, window in ipairs(vim.api.nvim_list_wins()) do
      if vim.api.nvim_win_get_config(window).relative ~= "" then
        local buffer = vim.api.nvim_win_get_buf(window)
        found = table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, false), "\n")
        vim.api.nvim_win_close(window, true)
        return true
      end
    end
    return false
  end)
  return found
end

local tests = {}

function tests.a_spec_is_known_by_its_ending()
  open(first)
  assert(vim.bo.filetype == "casewright", vim.bo.filetype)
  assert(vim.bo.commentstring == "# %s", vim.bo.commentstring)
  assert(#findings() == 0, vim.inspect(findings()))
end

function tests.a_finding_is_marked_and_a_code_action_mends_it()
  open(swapped(first, "store { share 1;", "store { high 23;"))
  until_("a finding", function() return #findings() > 0 end)
  local found = findings()[1]
  assert(found.code == "sizes-conflict" or found.user_data, vim.inspect(found))
  assert(found.message:find("2 too tall", 1, true), found.message)
  vim.api.nvim_win_set_cursor(0, { found.lnum + 1, found.col })
  local offered
  vim.ui.select = function(items, options, choose)
    offered = {}
    for _, item in ipairs(items) do
      local shown = options.format_item(item)
      table.insert(offered, shown)
    end
    choose(items[1], 1)
  end
  vim.lsp.buf.code_action()
  until_("no finding", function() return #findings() == 0 end)
  assert(#offered > 1, vim.inspect(offered))
  assert(text():find("drawer upper { high 3 }", 1, true), text())
end

function tests.a_slip_is_seen_while_it_is_typed()
  open(first)
  go("|wide 36")
  vim.cmd("normal! cwwdie")
  until_("a finding", function() return #findings() > 0 end)
  local told = findings()[1].message
  assert(told:find("`wdie` can't stand in a case", 1, true) == 1, told)
  assert(told:find("mend: line 34: `wide 36`", 1, true), told)
  vim.cmd("silent undo")
  until_("no finding", function() return #findings() == 0 end)
end

function tests.a_window_tells_of_a_size()
  open(first)
  go("st|ore { share")
  vim.lsp.buf.hover()
  local told = floating()
  assert(told:find("32-1/2 in", 1, true) and told:find("+ 36", 1, true), told)
end

function tests.the_outline_has_the_openings()
  open(first)
  vim.lsp.buf.document_symbol()
  until_("a list", function() return #vim.fn.getqflist() > 5 or #vim.fn.getloclist(0) > 5 end)
  local list = #vim.fn.getqflist() > 5 and vim.fn.getqflist() or vim.fn.getloclist(0)
  local told = vim.inspect(vim.tbl_map(function(own) return own.text end, list))
  assert(told:find("upper", 1, true) and told:find("cupboard", 1, true), told)
  vim.cmd("silent! cclose | silent! lclose")
end

function tests.a_text_is_laid_out()
  open(swapped(first, "  wide 36; deep 18;", "      wide    36;deep 18;"))
  if vim.lsp.buf.format then vim.lsp.buf.format() else vim.lsp.buf.formatting_sync(nil, 20000) end
  assert(text() == first, text())
end

function tests.a_name_is_changed_everywhere()
  open(first)
  go("slide run|ner\n")
  vim.lsp.buf.rename("under-15")
  until_("the new name", function() return text():find("slide under-15\n", 1, true) end)
  assert(text() == first:gsub("slide runner", "slide under%-15"), text())
end

function tests.a_name_leads_to_where_it_is_given()
  open(first)
  go("pull kn|ob\n")
  vim.lsp.buf.definition()
  until_("the definition", function()
    return vim.api.nvim_get_current_line():find("^pull knob {") ~= nil
  end)
  vim.fn.setqflist({})
  vim.lsp.buf.references()
  until_("a list of uses", function() return #vim.fn.getqflist() == 2 end)
  vim.cmd("cclose")
end

function tests.a_word_is_completed()
  open(swapped(first, "hinge cup-hinge; pull knob", "hinge c"))
  go("hinge |c\n")
  vim.bo.omnifunc = "v:lua.vim.lsp.omnifunc"
  vim.api.nvim_feedkeys(
    vim.api.nvim_replace_termcodes("A<C-x><C-o>", true, false, true), "n", false
  )
  -- The answer comes while the keys wait; the only offer is taken at once.
  vim.defer_fn(function()
    vim.api.nvim_feedkeys(
      vim.api.nvim_replace_termcodes("<Esc>", true, false, true), "n", false
    )
  end, 1000)
  vim.api.nvim_feedkeys("", "x!", false)
  assert(text():find("hinge cup%-hinge\n"), vim.api.nvim_get_current_line())
end

function tests.a_statement_tells_what_comes_next()
  open(first)
  go("30% |to 55%")
  vim.lsp.buf.signature_help()
  local told = floating()
  assert(told:find("humidity percent to percent", 1, true), told)
end

local names = vim.tbl_keys(tests)
table.sort(names)
local passed, failed = 0, 0
for _, name in ipairs(names) do
  local well, why = xpcall(tests[name], debug.traceback)
  passed, failed = passed + (well and 1 or 0), failed + (well and 0 or 1)
  io.stdout:write(("%s %s%s\n"):format(well and "ok" or "FAILED", name, well and "" or ": " .. why))
  vim.cmd("silent! %bwipeout!")
end
io.stdout:write(("Neovim: %d passed, %d failed\n"):format(passed, failed))
vim.cmd(failed == 0 and "qall!" or "cquit!")
