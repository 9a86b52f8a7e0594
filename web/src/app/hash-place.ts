import { useEffect } from 'react';

/** A link to a part of a view finds its place only once what the view shows is read. */
export function useHashPlace(isRead: boolean): void {
  useEffect(() => {
    if (!isRead || location.hash.length < 2) return;
    const place = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    place?.scrollIntoView();
    place?.focus({ preventScroll: true });
  }, [isRead]);
}
