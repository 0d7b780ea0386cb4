#!/bin/sh
# The whole job, from the drawing to the pages, and a scan besides.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
for step in 01-label 02-strip 03-measure-sizes 04-alter 05-allowance-and-print 06-picture 07-second-fitting 08-trace-a-scan 09-versions; do
  echo "--- $step"
  sh "$here/$step.sh"
done
