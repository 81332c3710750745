package main

import "time"

// clock reads the time. What it gave is compared only with what it gave before
// (Sub), which goes by the steady clock: the wall clock may be set forward or
// back meanwhile. No other code of this program asks for the time; see
// TestOneClock.
type clock func() time.Time

// since is the steady time since an earlier reading.
func (c clock) since(t time.Time) time.Duration { return c().Sub(t) }
