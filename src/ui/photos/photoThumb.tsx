// A photo small, with its marks: in lists, in the report, beside a difference. Pressing it is the caller's business.
import type { PhotoMark } from '../../core/record/events.ts';
import { useMediaUrl } from './mediaUrl.ts';
import { PhotoMarks } from './shown-photo.tsx';
import '../look/photo.css';

interface ThumbOf {
  document: string;
  width: number;
  height: number;
  marks: readonly PhotoMark[];
}

export function PhotoThumb({ photo, alt = '' }: { photo: ThumbOf; alt?: string }) {
  const media = useMediaUrl(photo.document, 'thumb');
  if (media.type !== 'here')
    return <span class="photo-absent">{media.type === 'absent' ? 'Not here yet' : 'Opening'}</span>;
  return (
    <span class="photo-shown" style={{ aspectRatio: `${photo.width} / ${photo.height}` }}>
      <img src={media.url} alt={alt} />
      <PhotoMarks marks={photo.marks} width={photo.width} height={photo.height} />
    </span>
  );
}
