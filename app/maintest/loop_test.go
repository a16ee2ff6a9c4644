package maintest_test

import (
	"slices"
	"testing"

	"twinloaf/app/maintest"
)

func TestOthersWaitForTheTest(t *testing.T) {
	l := maintest.New()
	var did []string
	l.Do(func() {
		l.Do(func() { did = append(did, "within") })
		did = append(did, "own")
	})
	handed := make(chan struct{})
	go func() {
		l.Do(func() { did = append(did, "other") })
		close(handed)
	}()
	<-handed
	if want := []string{"own", "within"}; !slices.Equal(did, want) {
		t.Errorf("did %q, want %q", did, want)
	}
	l.Do(func() { did = append(did, "last") })
	if want := []string{"own", "within", "other", "last"}; !slices.Equal(did, want) {
		t.Errorf("did %q, want %q", did, want)
	}
}
