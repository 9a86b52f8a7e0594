/** A camera in thin lines. */
export function CameraSign() {
  return (
    <svg className="camera-sign" viewBox="0 0 24 20" width="24" height="20" aria-hidden="true">
      <path d="M1.5 5.5h5l2-3h7l2 3h5v12h-21z" />
      <circle cx="12" cy="11" r="4" />
    </svg>
  );
}
