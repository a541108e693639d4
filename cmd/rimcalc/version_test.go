package main

import (
	"strings"
	"testing"

	"rimclear/assets"
)

func TestTheVersionIsTheRelease(t *testing.T) {
	if r := calc(t, "", "--version"); r.code != fine || !strings.Contains(r.out, assets.Version()) {
		t.Errorf("code %d, %q, want %q", r.code, r.out, assets.Version())
	}
}
