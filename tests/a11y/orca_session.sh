#!/usr/bin/env bash
# The part of scripts/check-screen-reader that runs inside its own D-Bus session.
set -euo pipefail
# Where the accessibility bus lives differs between systems.
for launcher in /usr/libexec/at-spi-bus-launcher /usr/lib/at-spi2-core/at-spi-bus-launcher; do
    if [ -x "$launcher" ]; then
        "$launcher" --launch-immediately >/dev/null 2>&1 &
        break
    fi
done
gsettings set org.gnome.desktop.interface toolkit-accessibility true || true
openbox >/dev/null 2>&1 &
orca --disable braille --disable braille-monitor --debug-file="$CHECK_WORK/orca.log" \
    >"$CHECK_WORK/orca.out" 2>&1 &
orca=$!
fail() {
    echo "$1" >&2
    kill "$orca" ${terminal:+"$terminal"} 2>/dev/null || true
    exit 2
}
# Its log is written late, in blocks, so only its process tells here that it came up.
sleep 8
kill -0 "$orca" 2>/dev/null ||
    fail "The screen reader did not stay up. It said: $(tail -n 3 "$CHECK_WORK/orca.out")"
cat > "$CHECK_WORK/run.sh" <<RUN
cd "$CHECK_ROOT"
exec .venv/bin/python -m coach follow "$CHECK_PATTERN" --plain --no-speech --no-ear \
    | tee "$CHECK_WORK/lines.txt"
RUN
xfce4-terminal --disable-server --geometry=120x40 -x env TERM=xterm-256color bash "$CHECK_WORK/run.sh" \
    >"$CHECK_WORK/terminal.log" 2>&1 &
terminal=$!
written() { wc -l 2>/dev/null < "$CHECK_WORK/lines.txt" || echo 0; }
for _ in $(seq 60); do
    if [ "$(written)" -ge 2 ]; then break; fi
    sleep 1
done
[ "$(written)" -ge 2 ] || fail "The coach wrote no first lines within a minute: $(
    cat "$CHECK_WORK/lines.txt" "$CHECK_WORK/terminal.log" 2>/dev/null | tail -n 5)"
sleep 4
# Keys go to the window that has the focus: without one they are lost.
xdotool getwindowfocus getwindowname >/dev/null 2>&1 ||
    fail "No window had the focus, so no key could reach the coach. Run it again, alone."
for _ in $(seq "$CHECK_STEPS"); do
    xdotool key Return
    sleep 2
done
sleep 6
kill "$terminal" "$orca" 2>/dev/null || true
sleep 1
