#!/bin/sh
# Run in a folder where the package is installed: the main job, from drawing to pages, with nothing but the package.
set -eu
tool="npx --no-install staywright"
$tool --help >/dev/null
$tool label --help >/dev/null
