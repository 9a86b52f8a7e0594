import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

/** The width of a box on the screen, so that a drawing with lettering is drawn to it and never shrunk. */
export function useWidth<Box extends HTMLElement>(before: number): readonly [RefObject<Box | null>, number] {
  const box = useRef<Box>(null);
  const [width, setWidth] = useState(before);
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return;
    const take = () => setWidth(Math.round(element.clientWidth));
    take();
    const observer = new ResizeObserver(take);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [box, width];
}
