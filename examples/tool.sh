# Read by every script here: where the tool is and where its work goes. Not for running on its own.
# STAYWRIGHT=staywright uses an installed one; OUT=folder puts the files elsewhere.
cd "$(dirname "$0")"
out=${OUT:-../build/demo}
mkdir -p "$out"
staywright() {
  ${STAYWRIGHT:-node ../bin/staywright.js} "$@"
}
# Shows a report and keeps it: keep FILE COMMAND... Ends as the command did.
keep() {
  report=$out/$1
  shift
  code=0
  staywright "$@" >"$report" || code=$?
  cat "$report"
  return "$code"
}
