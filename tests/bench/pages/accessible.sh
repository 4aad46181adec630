#!/bin/sh
# Looks at pages with axe-core in a real browser and prints what it finds wrong. By hand only, not in CI:
#   npm install axe-core
#   tests/bench/pages/accessible.sh node_modules/axe-core/axe.min.js page.html...
# make_pages.sh makes every page there is. Each is looked at 1100 and 390 px wide, and as it is printed (its rules for print
# then hold on the screen). The pages' own content policy forbids scripts, so a copy without it is looked at.
set -eu
axe=$1
shift
folder=$(mktemp -d)
trap 'rm -r "$folder"' EXIT
looks=0 broken=0
# accessible PAGE WIDTH HOW EDIT: EDIT is for sed
accessible() {
  copy=$folder/$(basename "$1")
  {
    grep -v 'Content-Security-Policy' "$1" | sed "/<\/body>/,\$d; $4"
    printf '<script>'
    cat "$axe"
    cat <<'END'
</script>
<script>
axe.run().then(found => {
  const list = found.violations.map(v => `  ${v.id}: ${v.help} (${v.nodes.length}), ${v.nodes[0].html}`);
  const unsure = found.incomplete.map(v => v.id);
  document.body.textContent = `AXE ${found.passes.length} rules passed, ${list.length} broken` +
    (unsure.length ? `, to look at: ${unsure.join(' ')}` : '') + '\n' + list.join('\n') + '\nEND';
});
</script>
</body>
</html>
END
  } >"$copy"
  result=$(chromium --headless --no-sandbox --disable-gpu --window-size="$2",900 --virtual-time-budget=20000 \
    --dump-dom "file://$copy" 2>/dev/null | sed -n '/AXE /,/END/p' | sed 's/.*AXE /AXE /; /END/d')
  printf '%s %s: %s\n' "$(basename "$1")" "$3" "${result:-no answer from axe}"
  looks=$((looks + 1))
  case $result in *', 0 broken'*) ;; *) broken=$((broken + 1)) ;; esac
}
for page in "$@"; do
  accessible "$page" 1100 'at 1100 px' ''
  accessible "$page" 390 'at 390 px' ''
  accessible "$page" 700 'as printed' 's/^@media print/@media all/'
done
printf '%s looks at %s pages, %s with something broken\n' "$looks" "$#" "$broken"
[ "$broken" = 0 ]
