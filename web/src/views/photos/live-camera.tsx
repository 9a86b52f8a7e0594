import { useEffect, useRef, useState } from 'react';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

type Standing = 'opening' | 'on' | 'no camera' | 'refused' | 'needs https';

/** The terminal's own camera; the picture is taken from what it shows. */
export function LiveCamera({ onTaken }: { readonly onTaken: (file: File) => void }) {
  const { photos: words } = useWords();
  const video = useRef<HTMLVideoElement>(null);
  const [standing, setStanding] = useState<Standing>('opening');
  useEffect(() => {
    let stream: MediaStream | undefined;
    let closed = false;
    const open = async () => {
      // Typed as always there; over plain HTTP it is not.
      const devices = navigator.mediaDevices as MediaDevices | undefined;
      if (devices?.getUserMedia === undefined) return setStanding('needs https');
      try {
        stream = await devices.getUserMedia({
          audio: false,
          video: { facingMode: { ideal: 'environment' }, width: { ideal: 2560 }, height: { ideal: 1440 } },
        });
        if (closed || video.current === null) return stop();
        video.current.srcObject = stream;
        await video.current.play();
        setStanding('on');
      } catch (error) {
        setStanding(error instanceof DOMException && error.name === 'NotAllowedError' ? 'refused' : 'no camera');
      }
    };
    const stop = () => {
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
    void open();
    return () => {
      closed = true;
      stop();
    };
  }, []);
  const take = () => {
    const shown = video.current;
    if (shown === null) return;
    const canvas = document.createElement('canvas');
    canvas.width = shown.videoWidth;
    canvas.height = shown.videoHeight;
    canvas.getContext('2d')?.drawImage(shown, 0, 0);
    canvas.toBlob(
      (blob) => blob !== null && onTaken(new File([blob], 'camera.jpg', { type: 'image/jpeg' })),
      'image/jpeg',
      0.92,
    );
  };
  const said = {
    opening: words.opening,
    'no camera': words.noCamera,
    refused: words.refusedCamera,
    'needs https': words.needsHttps,
  };
  return (
    <div className="live-camera">
      <video ref={video} muted playsInline aria-label={words.camera} hidden={standing !== 'on'} />
      {standing === 'on' ? (
        <Button big kind="main" onClick={take}>
          {words.take}
        </Button>
      ) : (
        <p className="camera-note" role="status">
          {said[standing]}
        </p>
      )}
    </div>
  );
}
