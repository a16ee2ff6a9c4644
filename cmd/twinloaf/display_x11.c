//go:build linux && cgo && !ci && !wayland

#include <X11/Xlib.h>

extern void twinloafDisplayGone(void);

/* Called by Xlib when the connection breaks. Xlib exits if it returns. */
static int gone(Display *display) {
	(void)display;
	twinloafDisplayGone();
	return 0;
}

void twinloafWatchDisplay(void) { XSetIOErrorHandler(gone); }
