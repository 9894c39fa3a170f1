# Sourced by the tests that open a real window: skips where a tool is missing, else starts the test anew within a
# virtual display, and gives what it needs to drive podrate-cab: `program` is its process, `window` its window.

for tool in xvfb-run xdotool zstdcat; do
    command -v $tool >/dev/null || { echo "skipped: $tool is not installed"; exit 77; }
done
# The server must not reset: by default it does whenever its last client leaves, as each xdotool is while the program
# still starts, and a program that connects just then is refused.
if [ "${IN_XVFB:-}" != 1 ]; then
    IN_XVFB=1 exec xvfb-run -a -s "-screen 0 1280x800x24 -noreset" "$0" "$@"
fi

# Of this very program (a window of the one before may still stand for a moment), with the keyboard's focus.
wait_for_window() {
    for _ in $(seq 600); do
        window=$(xdotool search --all --onlyvisible --pid "$program" --name '^Podrate' 2>/dev/null | head -n 1 || true)
        [ -n "$window" ] && [ "$(xdotool getwindowfocus 2>/dev/null)" = "$window" ] && return
        kill -0 "$program" || { echo "podrate-cab ended early"; exit 1; }
        sleep 0.1
    done
    echo "no window came up"
    exit 1
}

title() { xdotool getwindowname "$window"; }

wait_for() {  # a pattern that the title must come to match
    for _ in $(seq 300); do
        [[ "$(title)" =~ $1 ]] && { echo "ok: $(title)"; return; }
        sleep 0.1
    done
    echo "the title is '$(title)', not like '$1'"
    exit 1
}

# To whatever has the focus. Named by its window, one that closes at the press would miss the release, and the key
# would stay down for the next program.
press() { xdotool key "$@"; }

close() {
    press q
    for _ in $(seq 200); do
        kill -0 "$program" 2>/dev/null || { wait "$program"; return; }
        sleep 0.1
    done
    echo "it did not close"
    exit 1
}
