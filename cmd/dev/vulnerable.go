package main

import (
	"bytes"
	"context"
	"fmt"
	"net"
	"time"
)

// vulnerabilityHost holds the database of known vulnerabilities of Go modules.
const vulnerabilityHost = "vuln.go.dev:443"

// vulnerabilities asks govulncheck about both programs where its database can
// be reached, and says so where it cannot. The checker stays outside the
// program's go.mod.
func (w *workshop) vulnerabilities(ctx context.Context) error {
	d := net.Dialer{Timeout: 10 * time.Second}
	c, err := d.DialContext(ctx, "tcp", vulnerabilityHost)
	if err != nil {
		fmt.Fprintf(w.out, "known vulnerabilities: NOT CHECKED, the database of Go's vulnerabilities cannot be reached (%v)\n", err)
		return nil
	}
	c.Close()
	var out bytes.Buffer
	check := w.child(ctx, environment(cgo), "go", "run", "golang.org/x/vuln/cmd/govulncheck@v1.9.0", "-tags", uiTags, "./cmd/rimclear", "./cmd/rimcalc")
	check.Stdout = &out
	err = check.Run()
	fmt.Fprintf(w.out, "known vulnerabilities:\n%s", out.String())
	if err != nil {
		return fmt.Errorf("govulncheck: %w", err)
	}
	return nil
}
