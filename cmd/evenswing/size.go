package main

import (
	"fmt"
	"strconv"
	"strings"
)

// byteSize is an option such as 20GB or 500 MiB.
type byteSize int64

// sizeUnits are what may follow the number; the longer first.
var sizeUnits = []struct {
	name  string
	bytes float64
}{
	{"KIB", 1 << 10}, {"MIB", 1 << 20}, {"GIB", 1 << 30}, {"TIB", 1 << 40},
	{"KB", 1e3}, {"MB", 1e6}, {"GB", 1e9}, {"TB", 1e12},
}

// mostBytes is what no disk has: 2⁵³ bytes, exact in every reader of JSON.
const mostBytes = 1 << 53

// UnmarshalText reads a size.
func (b *byteSize) UnmarshalText(text []byte) error {
	plain := strings.ToUpper(strings.ReplaceAll(string(text), " ", ""))
	for _, u := range sizeUnits {
		number, ok := strings.CutSuffix(plain, u.name)
		if !ok {
			continue
		}
		x, err := strconv.ParseFloat(number, 64)
		if err != nil || !(x*u.bytes >= 1 && x*u.bytes <= mostBytes) {
			break
		}
		*b = byteSize(x * u.bytes)
		return nil
	}
	return fmt.Errorf("%q is no size: write a number and kB, MB, GB or TB (or KiB, MiB, GiB, TiB), such as 20GB", text)
}

// sizeText spells bytes for people.
func sizeText(bytes int64) string {
	switch x := float64(bytes); {
	case x >= 1e12:
		return fmt.Sprintf("%.4g TB", x/1e12)
	case x >= 1e9:
		return fmt.Sprintf("%.4g GB", x/1e9)
	case x >= 1e6:
		return fmt.Sprintf("%.4g MB", x/1e6)
	case x >= 1e3:
		return fmt.Sprintf("%.4g kB", x/1e3)
	}
	return fmt.Sprintf("%d bytes", bytes)
}
