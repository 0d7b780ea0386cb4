#!/bin/sh
# The marionette needs new stays. All that is left of the old ones is a printed sheet, so I scanned
# it, a little askew, with the 50 mm square that is printed beside the panels. I look at the preview
# close up before I go on: is the traced line on the ink all round?
set -eu
. "$(dirname "$0")/tool.sh"

staywright trace scanned-stays.jpg --test-square 50mm --level bust,waist \
  -o "$out/8-traced.svg" --preview "$out/8-preview.png"

# From here on it is a pattern like any other. The sheet says: cut on the line, 10 mm allowed.
staywright label "$out/8-traced.svg" --name "stays for the marionette" --line cutting --pieces pairs \
  --panels front,side,back --seams cf,side-front,side-back,cb -o "$out/8-cutting.svg"
staywright strip-allowance "$out/8-cutting.svg" --allowance 10mm -o "$out/8-net.svg"
keep 8-girth.txt girth "$out/8-net.svg"
keep 8-gap-before.txt gap "$out/8-net.svg" --body marionette.json

# Its waist is right, its bust 8 mm too large: 2 mm off each of the four lines of side-front.
staywright take-in "$out/8-net.svg" --seam side-front --above waist --amount 2mm -o "$out/8-fitted.svg"
keep 8-gap-after.txt gap "$out/8-fitted.svg" --body marionette.json
keep 8-walk.txt walk "$out/8-fitted.svg"

# Thin silk this time: 6 mm is enough.
staywright add-allowance "$out/8-fitted.svg" --allowance 6mm -o "$out/8-stays.svg"
staywright print "$out/8-stays.svg" --paper a4 -o "$out/8-stays.pdf"
