package build
var dbg = true
