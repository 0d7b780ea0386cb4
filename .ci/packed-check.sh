#!/bin/sh
# Run in a folder where the package is installed: the main job, from drawing to pages, with nothing but the package.
set -eu
staywright() { npx --no-install staywright "$@"; }

staywright --help >/dev/null
staywright label drawn-pattern.svg --within size-2 --test-square 2in --line cutting --pieces pairs --units in \
  --panels front,mid-front,side-front,side-back,mid-back,back \
  --seams cf,princess,underarm-front,side,underarm-back,blade,cb -q |
  staywright strip-allowance --allowance 5/8in -q |
  staywright take-in --seam cb --above waist --amount 3/8in -q >net.svg
staywright gap net.svg --body body.json
staywright add-allowance net.svg --allowance 15mm -o cut.svg --pdf cut.pdf
staywright add-allowance net.svg --allowance 15mm -o panels/ -q
staywright trace scanned-stays.jpg --test-square 50mm --level bust,waist -o traced.svg --preview preview.png
test -s traced.svg && test -s preview.png
test -s cut.svg && test -s cut.pdf && test -s panels/front.svg && test -s panels/print.pdf
test -s node_modules/staywright/dist/man/staywright.1 && test -s node_modules/staywright/shared/reports/girth.schema.json
for shell in bash zsh fish; do staywright completion $shell >completion && test -s completion; done
