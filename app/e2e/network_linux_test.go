package e2e

import (
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// sockets returns the sockets a process has open, by their number.
func sockets(t *testing.T, pid int) map[string]bool {
	t.Helper()
	all := map[string]bool{}
	files, err := filepath.Glob(fmt.Sprintf("/proc/%d/fd/*", pid))
	if err != nil || len(files) == 0 {
		t.Fatalf("the files of the process cannot be listed: %d, %v", len(files), err)
	}
	for _, f := range files {
		to, err := os.Readlink(f)
		if err != nil {
			continue // closed meanwhile
		}
		if number, ok := strings.CutPrefix(to, "socket:["); ok {
			all[strings.TrimSuffix(number, "]")] = true
		}
	}
	return all
}

// networked returns which of a process's sockets are of the network, and how
// many are of this machine alone.
func networked(t *testing.T, pid int) (network []string, local int) {
	t.Helper()
	open := sockets(t, pid)
	for _, kind := range []string{"tcp", "tcp6", "udp", "udp6", "udplite", "udplite6", "raw", "raw6", "icmp", "icmp6"} {
		data, err := os.ReadFile(fmt.Sprintf("/proc/%d/net/%s", pid, kind))
		if err != nil {
			continue // this system has none of the kind
		}
		for line := range strings.Lines(string(data)) {
			if f := strings.Fields(line); len(f) > 9 && open[f[9]] {
				network = append(network, kind+" to "+f[2])
			}
		}
	}
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/net/unix", pid))
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(data)) {
		if f := strings.Fields(line); len(f) > 6 && open[f[6]] {
			local++
		}
	}
	return network, local
}

// TestTheWindowOpensNoConnection looks, while the program starts and is worked
// with, at every socket it has: it talks to its display and to nobody else.
func TestTheWindowOpensNoConnection(t *testing.T) {
	p, w := open(t, 1280, 800)
	looks, local := 0, 0
	watch := func(what string) {
		t.Helper()
		for end := time.Now().Add(700 * time.Millisecond); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
			network, here := networked(t, p.PID())
			if len(network) > 0 {
				t.Fatalf("after %s it has open: %s", what, strings.Join(network, ", "))
			}
			looks, local = looks+1, max(local, here)
		}
	}
	watch("the start")
	for _, act := range []struct {
		what string
		do   func() error
	}{
		{"opening the map", func() error { return w.Key('t', Control) }},
		{"looking at the joint again", func() error { return w.Key('e', Control) }},
		{"saving", func() error { return w.Key('s', Control) }},
		{"leaving the dialog", func() error { return w.Key(Escape) }},
	} {
		if err := act.do(); err != nil {
			t.Fatal(err)
		}
		watch(act.what)
	}
	if local == 0 {
		t.Error("it has not even its display open: the test does not see sockets")
	}
	t.Logf("%d looks, at most %d sockets, all local", looks, local)
}

func TestAConnectionWouldBeSeen(t *testing.T) {
	if network, _ := networked(t, os.Getpid()); len(network) > 0 {
		t.Fatalf("this test has open: %s", network)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Skip("this system has no loopback: ", err)
	}
	defer l.Close()
	if network, _ := networked(t, os.Getpid()); len(network) != 1 {
		t.Errorf("with one socket open it sees %q", network)
	}
}
