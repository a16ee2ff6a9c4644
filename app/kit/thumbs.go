package kit

import (
	"container/list"
	"context"
	"image"
	"image/draw"
	"sync"
)

// ThumbSource makes small pictures. Key names the picture in whatever way its maker
// likes (a hash, a path); size is the longer side wanted, in device pixels. It is
// called from several goroutines at once and should give up when ctx ends.
type ThumbSource interface {
	Thumb(ctx context.Context, key string, size int) (image.Image, error)
}

// Loader fetches thumbnails away from the main goroutine and keeps the ones used
// last, up to a number of bytes. What was asked for last is fetched first: that is
// what stands on screen now.
type Loader struct {
	main   Main
	source ThumbSource
	most   int64
	ctx    context.Context
	stop   context.CancelFunc
	done   sync.WaitGroup

	mu     sync.Mutex
	wake   *sync.Cond // there is a job, or the loader closes
	idle   *sync.Cond // there is none, and none is worked on
	queue  []*thumbJob
	busy   int
	cached map[thumbKey]*list.Element
	recent *list.List // of *thumbEntry, newest first
	bytes  int64
}

type thumbKey struct {
	key  string
	size int
}

type thumbEntry struct {
	thumbKey
	img *image.RGBA
}

type thumbJob struct {
	thumbKey
	ctx    context.Context
	cancel context.CancelFunc
	done   func(image.Image, error)
}

// NewLoader starts workers goroutines (at least one). Close it when the window goes.
func NewLoader(main Main, source ThumbSource, workers int, mostBytes int64) *Loader {
	l := &Loader{main: main, source: source, most: mostBytes, cached: map[thumbKey]*list.Element{}, recent: list.New()}
	l.wake, l.idle = sync.NewCond(&l.mu), sync.NewCond(&l.mu)
	l.ctx, l.stop = context.WithCancel(context.Background())
	for range max(1, workers) {
		l.done.Go(l.work)
	}
	return l
}

// Cached gives a thumbnail that is at hand.
func (l *Loader) Cached(key string, size int) (image.Image, bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.look(thumbKey{key, size})
}

func (l *Loader) look(k thumbKey) (image.Image, bool) {
	el, ok := l.cached[k]
	if !ok {
		return nil, false
	}
	l.recent.MoveToFront(el)
	return el.Value.(*thumbEntry).img, true
}

// Load fetches a thumbnail and hands it to done on the main goroutine. After cancel
// done is not called, unless it is already on its way there: a cell that is reused
// checks that the answer is still for it.
func (l *Loader) Load(key string, size int, done func(image.Image, error)) (cancel func()) {
	ctx, stop := context.WithCancel(l.ctx)
	job := &thumbJob{thumbKey: thumbKey{key, size}, ctx: ctx, cancel: stop, done: done}
	l.mu.Lock()
	l.queue = append(l.queue, job)
	l.mu.Unlock()
	l.wake.Signal()
	return stop
}

// Wait blocks until nothing is queued or being fetched, for tests.
func (l *Loader) Wait() {
	l.mu.Lock()
	for (len(l.queue) > 0 || l.busy > 0) && l.ctx.Err() == nil {
		l.idle.Wait()
	}
	l.mu.Unlock()
	l.main.settle()
}

// Close cancels what is being fetched and waits for the workers to end.
func (l *Loader) Close() {
	l.mu.Lock()
	l.stop()
	l.mu.Unlock()
	l.wake.Broadcast()
	l.idle.Broadcast()
	l.done.Wait()
}

func (l *Loader) work() {
	for {
		job := l.next()
		if job == nil {
			return
		}
		l.fetch(job)
		l.mu.Lock()
		l.busy--
		l.mu.Unlock()
		l.idle.Broadcast()
	}
}

// next waits for a job that is still wanted; nil means that the loader was closed.
func (l *Loader) next() *thumbJob {
	l.mu.Lock()
	defer l.mu.Unlock()
	for {
		if l.ctx.Err() != nil {
			return nil
		}
		for n := len(l.queue); n > 0; n = len(l.queue) {
			job := l.queue[n-1]
			l.queue = l.queue[:n-1]
			if job.ctx.Err() == nil {
				l.busy++
				return job
			}
		}
		l.idle.Broadcast()
		l.wake.Wait()
	}
}

func (l *Loader) fetch(job *thumbJob) {
	defer job.cancel()
	l.mu.Lock()
	img, ok := l.look(job.thumbKey)
	l.mu.Unlock()
	var err error
	if !ok {
		img, err = l.source.Thumb(job.ctx, job.key, job.size)
		if err == nil {
			img = l.keep(job.thumbKey, img)
		} else {
			img = nil // a source may give a pointer to none, which is not nil as an image
		}
	}
	if job.ctx.Err() != nil {
		return
	}
	l.main(func() { job.done(img, err) })
}

// keep stores a thumbnail and lets go of the ones unused for longest.
func (l *Loader) keep(k thumbKey, img image.Image) image.Image {
	rgba := tightRGBA(img)
	l.mu.Lock()
	defer l.mu.Unlock()
	if el, ok := l.cached[k]; ok {
		l.drop(el)
	}
	l.cached[k] = l.recent.PushFront(&thumbEntry{k, rgba})
	l.bytes += int64(len(rgba.Pix))
	for l.bytes > l.most && l.recent.Len() > 1 {
		l.drop(l.recent.Back())
	}
	return rgba
}

func (l *Loader) drop(el *list.Element) {
	e := l.recent.Remove(el).(*thumbEntry)
	delete(l.cached, e.thumbKey)
	l.bytes -= int64(len(e.img.Pix))
}

// tightRGBA gives an image whose pixels lie row upon row from the origin, as Fyne's
// painter takes for granted.
func tightRGBA(img image.Image) *image.RGBA {
	b := img.Bounds()
	if r, ok := img.(*image.RGBA); ok && b.Min == (image.Point{}) && r.Stride == 4*b.Dx() {
		return r
	}
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Bounds(), img, b.Min, draw.Src)
	return out
}
