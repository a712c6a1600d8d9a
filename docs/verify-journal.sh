#!/bin/sh
# Checks the chain of an exported journal with sha256sum: verify-journal.sh JOURNAL. docs/journal.md says what is hashed.
# Prints the number of entries and the head; ends with 1 where an entry is wrong, none is there, or nothing can be read.
export LC_ALL=C
fail() { echo "$1" >&2; exit 1; }
[ -f "${1:?name the exported journal}" ] && [ -r "$1" ] || fail "$1 cannot be read"
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT

# What is hashed of a line: the digest before it, a line feed, the line without its own digest. Of each line a file
# `hashed/NUMBER`, and its own digest in `sums`; so many at once as a folder holds well, then sha256sum looks at them.
awk -v work="$work" '
    # Where the key stands last: before it there may be text of the entry, behind it only what is read here.
    function last(key,   at, rest, place) {
        at = 0; rest = $0
        while ((place = index(rest, key)) > 0) { at += place; rest = substr($0, at + 1) }
        return at
    }
    function stop(why) { print why > (work "/why"); wrong = 1; exit }
    function check() {
        close(work "/sums")
        if (system("cd \"" work "/hashed\" && sha256sum --quiet -c ../sums > ../wrong 2>/dev/null") != 0) {
            getline first < (work "/wrong"); sub(/:.*/, "", first)
            stop("entry " first " is not as it was written")
        }
        system("rm -rf \"" work "/hashed\" && mkdir \"" work "/hashed\""); pending = 0
        printf "" > (work "/sums")
    }
    BEGIN { before = sprintf("%064d", 0); system("mkdir \"" work "/hashed\"") }
    {
        digest = last(",\"digest\":\""); previous = last(",\"previous\":\""); seq = last(",\"seq\":")
        real = substr($0, digest + 11, 64); number = substr($0, seq + 7); sub(/,.*/, "", number)
        if (!digest || !previous || number != NR "" || substr($0, previous + 13, 64) != before \
            || length(real) != 64 || real !~ /^[0-9a-f]+$/) {
            if (pending) check()
            stop("entry " NR " does not follow from the one before it")
        }
        printf "%s\n%s", before, substr($0, 1, digest - 1) substr($0, digest + 76) > (work "/hashed/" NR)
        close(work "/hashed/" NR)
        print real "  " NR > (work "/sums")
        before = real
        if (++pending == 5000) check()
    }
    END {
        if (!wrong && pending) check()
        if (!wrong) print NR, before > (work "/head")
    }' "$1" || fail "$1 cannot be read"
[ ! -f "$work/why" ] || fail "$(cat "$work/why")"
read -r number head < "$work/head" || fail "$1 cannot be read"
[ "$number" -gt 0 ] || fail "$1 has no entry"
echo "$number entries, head $head"
