#!/bin/sh
# Looks at pages with axe-core in a real browser and prints what it finds wrong. By hand only, not in CI:
#   npm install axe-core
#   tests/bench/pages/accessible.sh node_modules/axe-core/axe.min.js page.html...
# The pages' own content policy forbids scripts, so a copy without it is looked at.
set -eu
axe=$1
shift
folder=$(mktemp -d)
trap 'rm -r "$folder"' EXIT
bad=0
for page in "$@"; do
  copy=$folder/$(basename "$page")
  {
    grep -v 'Content-Security-Policy' "$page" | sed '/<\/body>/,$d'
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
  for width in 1100 390; do
    result=$(chromium --headless --no-sandbox --disable-gpu --window-size=$width,900 --virtual-time-budget=20000 \
      --dump-dom "file://$copy" 2>/dev/null | sed -n '/AXE /,/END/p' | sed 's/.*AXE /AXE /; /END/d')
    printf '%s at %s px: %s\n' "$(basename "$page")" "$width" "${result:-no answer from axe}"
    case $result in *' 0 broken'*) ;; *) bad=1 ;; esac
  done
done
exit $bad
