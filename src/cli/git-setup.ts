/** Shell lines that make git show sheets in the words of `describe`, each with what it does; printed, never run. */
export const GIT_SETUP = `# Makes git diff, git show and git log -p tell in words what changed in a sheet.
# Nothing has been done yet: run these lines in the top folder of a repository.

# Which files: every .svg. Commit .gitattributes, so that it holds in each copy.
echo '*.svg diff=staywright' >> .gitattributes

# In which words. What is no sheet is shown as it is. Git takes no commands out
# of a repository, so that each copy of it needs this line once.
git config diff.staywright.textconv 'staywright describe --as-is'

# Pages beside panels (DIR/print.pdf) are made again by every command, and git
# cannot join two of them: better left out.
echo 'print.pdf' >> .gitignore

# The lines of the files themselves are still shown by: git diff --no-textconv
# Sheets are joined line by line, as git joins any text: nothing to set up.
# Where git reports a conflict in one of them, this tells in words what differs,
# and what to type: staywright check FILE
`;
