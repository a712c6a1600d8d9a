#!/bin/sh
# Checks the chain of an exported journal with sha256sum: verify-journal.sh JOURNAL. docs/journal.md says what is hashed.
export LC_ALL=C
previous=$(printf '%064d' 0)
number=0
while IFS= read -r line || [ -n "$line" ]; do
    number=$((number + 1))
    written=$(printf '%s\n' "$line" | sed -n 's/^.*,"digest":"\([0-9a-f]\{64\}\)","id":.*$/\1/p')
    text=$(printf '%s\n' "$line" | sed 's/^\(.*\),"digest":"[0-9a-f]\{64\}","id":/\1,"id":/')
    digest=$(printf '%s\n%s' "$previous" "$text" | sha256sum | cut -d' ' -f1)
    case $line in *",\"previous\":\"$previous\","*",\"seq\":$number,"*) ;; *) digest=broken ;; esac
    if [ "$digest" != "$written" ]; then echo "entry $number does not follow from the one before it" >&2; exit 1; fi
    previous=$digest
done < "${1:?name the exported journal}"
echo "$number entries, head $previous"
