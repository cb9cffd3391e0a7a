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
sleep 8
cat > "$CHECK_WORK/run.sh" <<RUN
cd "$CHECK_ROOT"
exec .venv/bin/python -m coach follow "$CHECK_PATTERN" --plain --no-speech --no-ear \
    | tee "$CHECK_WORK/lines.txt"
RUN
xfce4-terminal --disable-server --geometry=120x40 -x env TERM=xterm-256color bash "$CHECK_WORK/run.sh" \
    >"$CHECK_WORK/terminal.log" 2>&1 &
terminal=$!
for _ in $(seq 60); do
    if [ -s "$CHECK_WORK/lines.txt" ] && [ "$(wc -l < "$CHECK_WORK/lines.txt")" -ge 2 ]; then break; fi
    sleep 1
done
sleep 4
for _ in $(seq "$CHECK_STEPS"); do
    xdotool key Return
    sleep 2
done
sleep 6
kill "$terminal" "$orca" 2>/dev/null || true
sleep 1
