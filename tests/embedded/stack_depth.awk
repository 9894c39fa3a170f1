# stack_depth.awk: the deepest way through the call graphs that GCC writes with -fcallgraph-info=su, in bytes.
# usage: awk -f stack_depth.awk -v roots='NAME|NAME...' [-v library=BYTES] FILES.ci
# Prints `depth name` for each root and the way to the worst. A function whose frame is not known (of a library) counts
# `library` bytes. Recursion, a call through a pointer and a frame of varying size have no bound: exit 1.
# GCC calls a constructor by one of its two names and lists the other; it lists a template's function with its file's name
# before it. Where two files have one of the same name the larger counts.
{ gsub(/C1E/, "C2E"); gsub(/"[^":]*\.[ch]pp:/, "\"") }
/^node:/ {
    split($0, part, "\"")
    name = part[2]
    if (match(part[4], /[0-9]+ bytes \([a-z,]+\)/)) {
        split(substr(part[4], RSTART, RLENGTH), word, " ")
        if (word[1] > frame[name] + 0) frame[name] = word[1]
        if (word[3] !~ /static|bounded/) unbounded[name] = "a frame of varying size"
    }
    next
}
/^edge:/ {
    split($0, part, "\"")
    calls[part[2]] = calls[part[2]] " " part[4]
}

function depth(name, list, count, i, deepest, one) {
    if (name in known) return known[name]
    if (name in open) { fail(name, "recursion"); return 0 }
    if (name == "__indirect_call") { fail(name, "a call through a pointer"); return 0 }
    if (name in unbounded) fail(name, unbounded[name])
    open[name] = 1
    count = split(calls[name], list, " ")
    deepest = 0
    for (i = 1; i <= count; ++i) {
        one = depth(list[i])
        if (one > deepest) { deepest = one; next_of[name] = list[i] }
    }
    delete open[name]
    if (!(name in frame)) strangers[name] = 1
    known[name] = deepest + (name in frame ? frame[name] : library)
    return known[name]
}

function fail(name, why) {
    print "no bound: " why " at " name
    failed = 1
}

END {
    if (library == "") library = 64
    count = split(roots, root, "|")
    for (r = 1; r <= count; ++r) {
        if (!(root[r] in frame)) { print "no such function: " root[r]; failed = 1; continue }
        print "depth " depth(root[r]) " " root[r]
        if (known[root[r]] > most) { most = known[root[r]]; worst = root[r] }
    }
    print "most " most + 0
    for (at = worst; at != ""; at = next_of[at]) print "way " (at in frame ? frame[at] : library) " " at
    for (name in strangers) print "library " name
    exit failed
}
