#!/bin/bash
# Tries the main install on 64-bit ARM, emulated, and compares its answers with this machine's.
#
#     tests/emulated_arm.sh DIR [WAV…]        from the top of the tree, as root, with the environment's own python in front of PATH
#
# DIR receives a Debian root for arm64 (1 GB), made by debootstrap where there is none yet; WAV are recordings to hear, the first evening's
# "yes" unless named. Needs Debian's qemu-user-static and debootstrap. Emulated, all takes about a hundred times as long as here: a minute
# to start, some minutes to hear one word among three; so it is no part of .ci/run, and hearing is asked three words, not all of them.
# The wheels are those that pip takes for the platform, none is built but the one package that is plain Python; nothing is compiled.
set -eu
root=$(realpath -m "$1") && shift
[ $# -gt 0 ] || set -- audio_fixtures/first_evening/01-yes.wav

# The kernel hands ARM programs to the emulator, in a root of their own too (flag F).
emulator=/proc/sys/fs/binfmt_misc
[ -e $emulator/register ] || mount -t binfmt_misc binfmt_misc $emulator
[ -e $emulator/qemu-aarch64 ] || tr -d '\n' </usr/lib/binfmt.d/qemu-aarch64.conf >$emulator/register

[ -d "$root/usr" ] || debootstrap --arch=arm64 --variant=minbase --include=python3,libportaudio2,ca-certificates bookworm "$root"
mkdir -p "$root/wheels" "$root/tried"
git archive HEAD | tar x -C "$(rm -rf "$root/tree" && mkdir "$root/tree" && echo "$root/tree")"
rm -rf "$root/site"
python -m pip wheel -q --no-deps -w "$root/wheels" srt "$root/tree"
python -m pip install -q --target "$root/site" --find-links "$root/wheels" --only-binary=:all: --implementation cp --python-version 3.11 \
    --platform manylinux_2_28_aarch64 --platform manylinux_2_27_aarch64 --platform manylinux2014_aarch64 \
    --platform manylinux_2_17_aarch64 dark-field-companion

cp "$@" "$root/tried/"
printf '%s\n' '#JSGF V1.0 UTF-8 en;' 'grammar three;' 'public <three> = yes {y} | no {n} | ready {r};' >"$root/tried/three.jsgf"
mountpoint -q "$root/proc" || mount -t proc proc "$root/proc"
mountpoint -q "$root/dev" || mount --bind /dev "$root/dev"
trap 'umount "$root/proc" "$root/dev"' EXIT

# Answers without what is of no account: how long they took, and where the files lie.
answers() { # PREFIX COMMAND…
    local at="$1" name; shift
    for name in Vega Saturn Moon "M 13"; do
        "$@" where "$name" --lat 46.31 --lon -67.52 --at 2026-10-15T20:10:00-03:00 --json; echo
    done
    printf 'yes\n' | "$@" start --text --lat 46.31 --lon -67.52 --at 2026-10-15T20:10:00-03:00
    "$@" say "Good evening." --out "$at/tried/said.wav" --json | sed 's/"file": "[^"]*", //; s/"seconds": \([0-9]*\.[0-9]\).*/"seconds": \1/'; echo
    for name in "$root"/tried/*.wav; do
        case $name in */said.wav) continue ;; esac
        "$@" hear "$at/tried/$(basename "$name")" --grammar "$at/tried/three.jsgf" --rule three --json |
            sed 's/"file": "[^"]*", //; s/"confidence": \(0\.[0-9][0-9]\)[0-9]*/"confidence": \1/; s/, "seconds": .*//'
    done
}
quiet="ORT_DISABLE_TELEMETRY=1 OPENBLAS_NUM_THREADS=1 OMP_NUM_THREADS=1"
answers "$root" env $quiet COMPANION_HOME="$root/tried/here" python -m companion >"$root/here.txt"
answers "" chroot "$root" env $quiet HOME=/root COMPANION_HOME=/tried/there PYTHONPATH=/site QEMU_CPU=cortex-a72 \
    /usr/bin/python3 -m companion >"$root/there.txt"
chroot "$root" uname -m
diff "$root/here.txt" "$root/there.txt" && echo "the same answers: $(wc -l <"$root/there.txt") lines"
