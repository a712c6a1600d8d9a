#!/bin/sh
# Proves what this folder says of its own journal lines: sh prove.sh. Needs sha256sum and what every POSIX system has.
# It proves the lines and the photos and papers, whose digests stand in them. Tables and report are made from the lines
# and are not proved here, and whoever makes a whole chain anew makes a sound one: compare the head with a paper.
# digest of an entry = SHA-256( digest of the one before it, a line feed, the text of the entry without its digest )
export LC_ALL=C
cd "$(dirname "$0")" || exit 2
fail() { echo "$1" >&2; exit 1; }
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT

# Checks each line of FILE by itself and lists number, digest and the digest before it in $work/lines.
check_lines() {
    mkdir -p "$work/hashed"
    awk -v work="$work" '
        # Where the key stands last: before it there may be text of the entry, behind it only what is read here.
        function last(key,   at, rest, place) {
            at = 0; rest = $0
            while ((place = index(rest, key)) > 0) { at += place; rest = substr($0, at + 1) }
            return at
        }
        {
            digest = last(",\"digest\":\""); previous = last(",\"previous\":\""); seq = last(",\"seq\":")
            if (!digest || !previous || !seq) { exit 1 }
            number = substr($0, seq + 7); sub(/,.*/, "", number)
            if (number !~ /^[0-9]+$/) { exit 1 }
            before = substr($0, previous + 13, 64); real = substr($0, digest + 11, 64)
            if (before real !~ /^[0-9a-f]+$/ || length(before real) != 128) { exit 1 }
            printf "%s\n%s", before, substr($0, 1, digest - 1) substr($0, digest + 76) > (work "/hashed/" number)
            close(work "/hashed/" number)
            print real "  hashed/" number > (work "/sums")
            print number, real, before > (work "/lines")
        }' "$1" || fail "a line is no entry of a journal"
    if [ -s "$1" ] && ! (cd "$work" && sha256sum --quiet -c sums) > "$work/wrong" 2>/dev/null; then
        head -n 3 "$work/wrong" >&2
        fail "an entry is not as it was written"
    fi
    touch "$work/lines"
}

# Prints digest and path of each file that the extract says is attached, as SHA256SUMS would.
attached_files() {
    awk '
        function last(key,   at, rest, place) {
            at = 0; rest = $0
            while ((place = index(rest, key)) > 0) { at += place; rest = substr($0, at + 1) }
            return at
        }
        # Within a text each quotation mark has a backslash before it, so these keys stand in no text.
        function text(key,   at, rest, place, found) {
            at = index($0, ",\"" key "\":\"")
            if (!at) { exit 1 }
            rest = substr($0, at + length(key) + 5); found = ""
            while ((place = index(rest, "\"")) > 1 && substr(rest, place - 1, 1) == "\\") {
                found = found substr(rest, 1, place - 2) "\""; rest = substr(rest, place + 1)
            }
            return found substr(rest, 1, place - 1)
        }
        index(substr($0, last(",\"kind\":\"")), ",\"kind\":\"attached\"") == 1 {
            number = substr($0, last(",\"seq\":") + 7); sub(/,.*/, "", number)
            print text("sha256") "  attached/" number "-" text("name")
        }' journal/extract.jsonl || fail "an entry does not say which file it attached"
}

sha256sum --quiet -c SHA256SUMS || fail "a file is not as it was handed over"
# A digest has 64 letters, two blanks follow.
cut -c 67- SHA256SUMS | sort > "$work/listed"
find . ! -type d ! -path ./SHA256SUMS | cut -c 3- | sort > "$work/there"
cmp -s "$work/listed" "$work/there" || {
    comm -3 "$work/listed" "$work/there" | head -n 3 >&2
    fail "a file is here that SHA256SUMS does not list, or one is listed twice"
}
read -r head_number head < head.txt
stated=$(awk '$1 == "extract" { print $2 }' head.txt)
count=$(awk 'END { print NR }' journal/extract.jsonl)
[ "$count" = "$stated" ] || fail "the extract has $count entries, head.txt states ${stated:-no number of them}"
[ -z "$(sort journal/extract.jsonl | uniq -d)" ] || fail "an entry stands twice in the extract"
attached_files > "$work/unsorted"
sort "$work/unsorted" > "$work/named"
grep '^[0-9a-f]*  attached/' SHA256SUMS | sort > "$work/attached"
cmp -s "$work/named" "$work/attached" ||
    fail "a file in attached/ is not the one that its entry names, is missing, or is named by no entry"
if [ -f journal/chain.jsonl ]; then
    # From the first of the entries to the head, without a gap.
    check_lines journal/chain.jsonl
    awk -v head="$head_number $head" '
        NR > 1 && ($1 != number + 1 || $3 != digest) { exit 1 }
        { number = $1; digest = $2 }
        END { if (number " " digest != head) exit 1 }' "$work/lines" ||
        fail "the chain has a gap or does not end at the head"
    awk 'NR == FNR { known[$0] = 1; next } !($0 in known) { exit 1 }' journal/chain.jsonl journal/extract.jsonl ||
        fail "a line of the extract is no line of the chain"
    echo "$count entries lie in the chain that ends at entry $head_number, $head"
else
    # The entries of others are left out: only their digests are here.
    check_lines journal/extract.jsonl
    awk -v head="$head_number $head" '
        NR == FNR { if (NR > 1 && $1 != number + 1) exit 1; number = $1; digest = $2; listed[$1] = $2; next }
        FNR == 1 && number " " digest != head { exit 1 }
        listed[$1] != $2 || (($1 - 1) in listed && listed[$1 - 1] != $3) { exit 1 }' \
        journal/digests.txt "$work/lines" ||
        fail "the list of digests has a gap, does not end at the head, or has another digest for an entry"
    echo "$count entries are as the list of digests that ends at entry $head_number, $head has them"
    echo "that this list is one chain only the whole journal proves: ask the shop for a pack without gaps"
fi
echo "$(awk 'END { print NR }' "$work/attached") photos and papers are those that these entries name"
echo "not proved here: that this is the shop's chain. Compare its head with one that you hold apart from this folder"
echo "not proved here: tables/ and report.html or report.pdf, made from these entries, nor that the extract has all that were asked for"
